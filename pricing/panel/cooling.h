#pragma once

#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "pricing/panel/box_facts.h"
#include "pricing/panel/heat_two_film.h"

namespace backplate {

/// A way to keep the box cool: sealed, or a stage with its parts.
struct CoolingStage {
    std::string name = "sealed";
    const Part* part = nullptr; ///< null: sealed
    int quantity = 0;
};

/// Sealed first, then what the price book holds, as far as `choices.cooling` and the protection
/// asked allow. A part with a mark of its own must meet the request by that mark.
std::vector<CoolingStage> cooling_stages(const PriceBook& book, const BoxFacts& facts);

/// Does a mark meet what is asked: within its own system only (IP against IP, Type against Type).
/// IP water numerals 7 to 9 do not prove 5 and 6; Type by the list of what each type covers.
/// Source: electrical-facts 3 (IEC 60529 clause 6 from memory; NEMA 250 matrix).
bool mark_meets(const std::string& offered, const std::string& asked);
bool part_meets(const Part& part, const std::string& asked);

Surface surface_of(const Part& enclosure, const Box& box, const CoolingStage& stage,
                   const RuleBook& rules);

/// Heat that leaves (enclosure, stage) when the air at the top is at `top`; watts. Mid-height rise
/// = rise at the top ÷ top factor. Filter fan: walls + flow ÷ fan constant × fouling; cooling unit:
/// its useful cooling less what the walls let in.
/// Source: climate-and-supply 1.4, 4.1 to 4.3.
Watts heat_shed_at(const Part& enclosure, const Box& box, const CoolingStage& stage, Celsius top,
                   const RuleBook& rules, Work& work);

/// Rise that the flow of a filter fan carries, W/K; 0 for other stages.
double carried_by_flow(const CoolingStage& stage, const Box& box, const RuleBook& rules);

/// Temperature that a cooling unit holds inside: the outside air, or the highest allowed at the top
/// where that is lower.
Celsius unit_set_point(const Box& box, Celsius highest_top);

/// Mid-height temperature at which `heat` leaves; a cooling unit holds its set point.
Celsius settled_mid(const Part& enclosure, const Box& box, const CoolingStage& stage, Watts heat,
                    Celsius highest_top, const RuleBook& rules, Work& work);

/// The surface rule beside it: temperature at the top. Not for cooling units, which hold theirs.
Celsius second_method_top(const Part& enclosure, const Box& box, const CoolingStage& stage,
                          Watts heat, const RuleBook& rules);

/// U of the surface rule for the enclosure's material, safe for a rise.
const Rule& u_low_of(const Part& enclosure, const RuleBook& rules);

/// Share of the sun that the enclosure's finish absorbs; the row of the worst case where it has
/// none.
const Rule& absorptance_of(const Part& enclosure, const RuleBook& rules);

/// How much warmer the sun makes the inside at mid-height, holding or not holding it: 0 in the
/// shade; with a cooling unit the rise of the simple rule that it works against.
Kelvin rise_by_sun(const Part& enclosure, const Box& box, const CoolingStage& stage, Watts heat,
                   const RuleBook& rules, Work& work);

/// Heat that can be shed, asked for once per (enclosure, stage, 0.01 K); mW, rounded down.
class ShedTable {
public:
    ShedTable(const Box& box, const RuleBook& rules, Work& work)
        : box_(box), rules_(rules), work_(work) {}
    std::int64_t milliwatts(const Part& enclosure, std::size_t stage_index,
                            const CoolingStage& stage, Celsius top);

private:
    const Box& box_;
    const RuleBook& rules_;
    Work& work_;
    std::map<std::tuple<const Part*, std::size_t, std::int64_t>, std::int64_t> known_;
};

} // namespace backplate
