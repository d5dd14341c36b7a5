#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "pricing/panel/box_facts.h"
#include "pricing/panel/suite.h"

namespace backplate {

/// A stretch of rail that devices of one band ask for; 0.1 mm.
struct BandNeed {
    std::int64_t width = 0;     ///< sum of widths with side clearances, without reserve
    std::int64_t widest = 0;    ///< over everything the engine may choose for this band
    std::int64_t tallest = 0;   ///< of the devices; of modules, over all that may be chosen
    std::int64_t bent = 0;      ///< terminals: height with the room in which conductors bend
    std::int64_t partition = 0; ///< terminals: ends of a strip of its own for mains voltage
};

/// What the devices ask of a plate.
struct RoomNeed {
    std::array<BandNeed, 5> bands; ///< by Band
    bool has_supply = false;
    std::int64_t wires_and_cores = 0;
    double deepest_mm = 0, deepest_door_mm = 0;
};

/// How the plates are divided: rows in the order of their groups from the top of the first plate
/// on, each whole on one plate.
struct RoomPlan {
    std::array<int, 5> group{};               ///< by Band: number of the shared group
    std::array<int, 5> rows{};                ///< by group
    std::array<std::int64_t, 5> row_height{}; ///< by group, 0.1 mm
    int groups = 0;
    int total_rows = 0;
    int plates = 1;
    std::int64_t duct = 0;        ///< width of the ducts, 0.1 mm; 0: ducts inside the row pitch
    std::int64_t rail = 0;        ///< usable rail of a row
    std::int64_t used_height = 0; ///< of all plates
    double room_left_percent = 0; ///< free rail in percent of the occupied rail
};

/// Rows that fill plates from the top down in their order, with a duct above and below each; a row
/// that the plate has no height left for begins the next one. No order-keeping way takes fewer
/// plates, so fewer or lower rows never take more; 0.1 mm.
class PlateRows {
public:
    PlateRows(std::int64_t plate_height, std::int64_t duct)
        : height_(plate_height), duct_(duct), next_(duct) {}
    /// Stands one more row; false, and nothing stood, where it is higher than a plate.
    bool add(std::int64_t row_height);
    int plate() const { return plate_; }         ///< of the last row, from 0
    std::int64_t top() const { return top_; }    ///< of the last row
    std::int64_t below() const { return next_; } ///< lower edge of the duct below it

private:
    std::int64_t height_, duct_, next_, top_ = 0;
    int plate_ = 0;
};

/// What devices ask of any plate, made once where many plates are looked at. See room_plan.
class RoomDemand {
public:
    RoomDemand(const RoomNeed& need, Percent reserve, const RoomRules& rules);

    /// How the plates are divided; nothing where they are too small.
    std::optional<RoomPlan> on(const Suite& enclosure) const;
    /// Usable rail of a row, 0.1 mm.
    std::int64_t rail_on(const Part& enclosure) const;

private:
    /// Bands that share rows, 0.1 mm.
    struct Group {
        std::int64_t occupied = 0, width = 0; ///< width: with reserve and partition
        std::int64_t widest = 0, height = 0;
        bool devices = false;
    };
    /// One way to share rows.
    struct Sharing {
        std::array<int, 5> group{}; ///< by Band
        std::array<Group, 5> needs{};
        int groups = 0, most = 0; ///< most: rows of a group of devices; 0: any
    };
    static Sharing sharing_of(const RoomNeed& need, const std::array<int, 5>& groups,
                              Percent reserve, std::int64_t gap, const RoomRules& rules);
    std::optional<RoomPlan> divide(const Sharing& sharing, PlateRows fill, int plates,
                                   std::int64_t rail, std::int64_t duct) const;

    std::vector<Sharing> sharings_;
    std::int64_t duct_wall_ = 0, duct_floor_ = 0, sides_ = 0;
    bool one_if_it_fits_ = true;
};

/// The room rule: per group of bands that share rows, 1 row if the width fits the rail (where the
/// rules say so), else ceil(width ÷ (rail − widest device)); of the sharings that the rules allow
/// the lowest. Nothing where the plates are too small. Never wants less for more devices, and the
/// exact layout always succeeds under it. Source: common practice, no source; the monotone form is
/// a decision of this product (DEVELOPERS.md).
std::optional<RoomPlan> room_plan(const RoomNeed& need, const Suite& enclosure, Percent reserve,
                                  const RoomRules& rules);

/// As above without the widest device taken off: what an exact layout would need at least.
std::optional<RoomPlan> exact_room(const RoomNeed& need, const std::vector<std::int64_t>& widths,
                                   const Part& enclosure, Percent reserve, const RoomRules& rules);

/// Wires and cores that meet in one duct, where they are more than the widest duct of the rules
/// holds; nothing where one is wide enough, or the rules know no widths.
struct DuctOverfill {
    std::int64_t wires = 0, holds = 0;
    double width_mm = 0; ///< of the widest duct
};
std::optional<DuctOverfill> duct_overfill(const RoomNeed& need, const RoomRules& rules);

/// Deepest device, rail, door device and the air between them against the depth behind the door;
/// a plate without a depth stands free.
bool deep_enough(const RoomNeed& need, const Part& enclosure, const RoomRules& rules);

/// Depth between plate and door, mm: as stated, else the outer depth less the rule of the mounting;
/// nothing for a bare plate.
std::optional<double> usable_depth(const Part& enclosure, const RoomRules& rules);

std::int64_t tenths(double millimetres); ///< up to the next 0.1 mm

} // namespace backplate
