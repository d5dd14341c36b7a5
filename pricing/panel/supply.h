#pragma once

#include <optional>
#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/box_facts.h"

namespace backplate {

/// One or several equal supplies in parallel, or n plus one of which any n carry everything.
struct SupplyChoice {
    const Part* part = nullptr; ///< null: nothing draws at 24 V
    int quantity = 1;
    const LossRow* loss = nullptr;
    const Part* decoupler = nullptr; ///< n plus one: what keeps a failed unit from the others
    int decouplers = 0;
    double input_factor = 1;    ///< what low mains leave of the rating
    double mounting_factor = 1; ///< what the space beside it leaves of the rating
    const Part* wire = nullptr; ///< of the 24 V side of one unit; null: none of the size
    bool redundant() const { return decoupler != nullptr; }
    /// Units that must carry everything: with one away where they are redundant.
    int carrying() const { return redundant() ? quantity - 1 : quantity; }
    /// Rating of one unit, amperes; 0 where there is none.
    double unit_a() const { return part ? *part->rated_a : 0; }
    /// What may be counted on, amperes.
    double rated_a() const { return unit_a() * carrying(); }
};

/// Peak current of the units behind one of so many feeds when they are switched on together,
/// amperes; a unit that states none adds none.
double inrush_of(const SupplyChoice& choice, int feeds);

/// The choice of a box in which nothing draws at 24 V.
SupplyChoice no_supply();

/// Price of the units and of what decouples them, ten-thousandths.
std::int64_t price_of(const SupplyChoice& choice);

/// Parts of the kind backup that may be chosen and state rating and energy; none where no time
/// without mains is asked.
std::vector<const Part*> backup_parts(const PriceBook& book, const BoxFacts& facts);

/// Why no supply can be chosen, in words.
std::string no_supply_text(const Box& box);

/// Supplies that may be chosen for the site's voltage, alone or as many in parallel as the rules
/// allow, at least one for each feed; where redundancy is asked, n plus one with the cheapest
/// decoupling rated for what its inputs may bring together, n as far as the rules allow.
std::vector<SupplyChoice> supply_choices(const PriceBook& book, const BoxFacts& facts,
                                         const RuleBook& rules);

/// The same at another voltage: one supply or several in parallel on the first feed, none
/// redundant.
std::vector<SupplyChoice> supply_choices_at(double volts, const PriceBook& book,
                                            const BoxFacts& facts, const RuleBook& rules);

/// Volts that the supply gives: its own, else the control voltage.
double output_volts(const Part& part, const SupplyRules& rules);

/// Loss inside the box, rated × volts × (l0 + l1 x + l2 x²) with x = load ÷ rated; of n plus one
/// the worse of all sharing the load and n sharing it. Source: climate-and-supply 5.1, 5.4.
Watts supply_loss(const SupplyChoice& choice, Amperes load, const SupplyRules& rules);

/// 1 up to the knee, then falling by the slope, 0 from the part's own highest temperature on.
/// Source: climate-and-supply 5.2.
double temperature_factor(const SupplyChoice& choice, Celsius air, const SupplyRules& rules);
/// 1 from the knee on, falling below it for supplies of a wide range of alternating current that
/// begins under the knee. Source: climate-and-supply 5.2.
double input_factor(const Part& part, const Site& site, const SupplyRules& rules);

/// 1 where the space kept free beside supplies is enough, else what the part or the row leaves.
/// Source: climate-and-supply 5.2.
double mounting_factor(const Part& part, const RuleBook& rules);

/// The request asks for NEC class 2 circuits: only single supplies marked so serve.
bool asks_class_2(const Site& site);

/// 1 up to the knee, then falling; 0 above it where no row says how far.
double altitude_factor(double altitude_m, const SupplyRules& rules);

/// The highest air temperature at which the supply still carries `load` (utilisation included);
/// nothing where it does not even below the knee; where no supply is taken, the air in which none
/// would give anything. Source: climate-and-supply 5.3.
std::optional<Celsius> highest_air(const SupplyChoice& choice, Amperes load, double altitude_m,
                                   const SupplyRules& rules);

/// The supply's entry of the estimate.
/// Without the air at the supply what follows from it stays unknown.
SupplyResult supply_result(const SupplyChoice& choice, Amperes load, Amperes all_on,
                           std::optional<Celsius> air, double altitude_m, const SupplyRules& rules);

} // namespace backplate
