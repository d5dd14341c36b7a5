#pragma once

#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "pricing/panel/box_facts.h"
#include "pricing/panel/heat_two_film.h"
#include "pricing/panel/suite.h"

namespace backplate {

/// A way to keep the box cool: sealed, or a stage with its parts.
struct CoolingStage {
    std::string name = "sealed";
    const Part* part = nullptr; ///< null: sealed
    int quantity = 0;           ///< one for every enclosure of a suite
};

/// Sealed first, then what the price book holds, as far as `choices.cooling` and the protection
/// asked allow, and what dust and corrosion do not forbid. A part in the wall must meet the request
/// by a mark of its own. A water exchanger needs the client's water, so it is taken where demanded.
std::vector<CoolingStage> cooling_stages(const PriceBook& book, const BoxFacts& facts);

/// Why the part may cool no box of the request, in words; empty where it may.
std::string why_not_cooling(const Part& part, const BoxFacts& facts);

/// The stage holds a temperature whatever the outside air is: cooling unit, water exchanger.
bool holds_set_point(const CoolingStage& stage);

/// The part has its place in the door or a side of the enclosure; a fan inside takes none.
bool fits_wall(const Part& cooling, const Part& enclosure);

/// Does a mark meet what is asked: within its own system only (IP against IP, Type against Type).
/// IP water numerals 7 to 9 do not prove 5 and 6; Type by the rows of what each type covers.
/// Source: electrical-facts 3 (IEC 60529 clause 6 from memory; NEMA 250 matrix).
bool mark_meets(const std::string& offered, const std::string& asked, const RuleBook& rules);
bool part_meets(const Part& part, const std::string& asked, const RuleBook& rules);

/// The mark of the finished box: the lower one of body and part in its wall (electrical-facts 3);
/// the mark asked where neither covers the other, for both meet that.
std::string finished_mark(const Part& enclosure, const Part* cooling, const std::string& asked,
                          const RuleBook& rules);

Surface surface_of(const Suite& enclosure, const Box& box, const CoolingStage& stage,
                   const RuleBook& rules);

/// Heat that leaves (enclosure, stage) when the air at the top is at `top`; watts. Mid-height rise
/// = rise at the top ÷ top factor. Filter fan: walls + flow ÷ fan constant × fouling; air
/// exchanger: walls + its W/K × air pressure against that of the sea; cooling unit and water
/// exchanger: useful cooling at these temperatures less what the walls let in; 0 where the part is
/// too large for the wall. Of a suite what may arise inside so that the fullest enclosure, which
/// sheds an even share, stays at `top` (heat_of_fullest); every enclosure has a part of the stage.
/// Source: climate-and-supply 1.4, 4.1 to 4.3.
Watts heat_shed_at(const Suite& enclosure, const Box& box, const CoolingStage& stage, Celsius top,
                   const RuleBook& rules, Work& work);

/// Flow of filter fans with clogged filters, m³/h.
double useful_flow(const CoolingStage& stage, const RuleBook& rules);

/// What filter fan or air exchanger carry out, W/K; 0 for other stages.
double carried_by_flow(const CoolingStage& stage, const Box& box, const RuleBook& rules);

/// Temperature that a cooling unit or water exchanger holds inside: the outside air, or the highest
/// allowed at the top where that is lower.
Celsius unit_set_point(const Box& box, Celsius highest_top);

/// Mid-height temperature at which `heat` leaves (of the fullest enclosure of a suite); a stage
/// with a set point holds it.
Celsius settled_mid(const Suite& enclosure, const Box& box, const CoolingStage& stage, Watts heat,
                    Celsius highest_top, const RuleBook& rules, Work& work);

/// The surface rule beside it: temperature at the top. Not for stages that hold theirs.
Celsius second_method_top(const Suite& enclosure, const Box& box, const CoolingStage& stage,
                          Watts heat, const RuleBook& rules);

/// Surface of the surface rule with the face factors of the rules.
SquareMetres cooling_surface(const Surface& surface, const RuleBook& rules);

/// U of the surface rule for the enclosure's material, safe for a rise.
const Rule& u_low_of(const Part& enclosure, const RuleBook& rules);

/// Share of the sun that the enclosure's finish absorbs; the row of the worst case where it has
/// none.
const Rule& absorptance_of(const Part& enclosure, const RuleBook& rules);

/// How much warmer the sun makes the inside at mid-height, holding or not holding it: 0 in the
/// shade; with a set point the rise of the simple rule that it works against.
Kelvin rise_by_sun(const Suite& enclosure, const Box& box, const CoolingStage& stage, Watts heat,
                   const RuleBook& rules, Work& work);

/// Heat that can be shed, asked for once per (enclosures, stage, 0.01 K); mW, rounded down.
class ShedTable {
public:
    ShedTable(const Box& box, const RuleBook& rules, Work& work)
        : box_(box), rules_(rules), work_(work) {}
    std::int64_t milliwatts(const Suite& enclosure, std::size_t stage_index,
                            const CoolingStage& stage, Celsius top);

private:
    const Box& box_;
    const RuleBook& rules_;
    Work& work_;
    std::map<std::tuple<const Part*, int, std::size_t, std::int64_t>, std::int64_t> known_;
};

} // namespace backplate
