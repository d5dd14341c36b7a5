#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/conductor_rules.h"
#include "pricing/book/offer_text.h"
#include "pricing/book/rule.h"
#include "pricing/book/rule_tables.h"
#include "pricing/book/site_part_rules.h"
#include "pricing/book/small_part_rules.h"
#include "pricing/values/finding.h"
#include "pricing/values/money.h"

namespace backplate {

/// How a signal behaves: a row of the signal table.
struct Signal {
    std::string key, meaning, wiring;
    std::optional<Decimal> amps, volts_iec, volts_north_america;
    std::optional<Decimal> volts_low, volts_high; ///< what a channel of the signal takes
    bool fed_from_box = false;
    std::optional<bool> fed_from_box_with_via;
    std::string power;      ///< input, loop_in, loop_out, switched, passive
    std::string work_class; ///< digital, analogue, temperature, special, safety
    bool mains_level = false;
    bool special_module = false; ///< raises SIGNAL_SUBTYPE
    bool shielded = false;       ///< its cable has a screen to land
};

/// What stands between a channel and its field terminal: a row per way and signal.
struct Interface {
    std::string key, via, signal;
    std::string module_signal; ///< what the module behind it serves; "same": the signal itself
    std::string part_kind, function; ///< part that it takes; no kind: none
    bool plain = false;              ///< a part without a function serves as well
    double parts_per_channel = 1;
    std::string terminal_function;       ///< one terminal of the channel takes it on; empty: none
    Rule terminals_change, wires_change; ///< of a channel, against direct wiring
    Rule heat_w, current_ma;             ///< of a piece that states none
    double width_mm = 0;                 ///< of a piece that states none
    Rule drop_v;                         ///< across the closed output; 0: none
    bool feeds_loop = false;             ///< the loop's current is part of the piece's own
    bool isolates = false;               ///< the module need not isolate channel from channel
    bool keeps_signal() const { return module_signal == "same"; }
};

/// How a part of the door, by its function, is let in and mounted.
struct DoorOpening {
    std::string function, opening; ///< round, rectangular, none
    bool small = false;            ///< mounted as a door device, not as an operator panel
};

/// Terminals of one channel that are no plain feed-through ones.

struct TerminalFunction {
    std::string channel; ///< "AI_MA 2-wire", a row of `terminals`
    std::string function;
    int pieces = 0;
};

/// One thing that a ready assembly brings.
struct AssemblyRow {
    enum class Brings { points, part, wires, terminals, sheets, minutes, network };
    enum class Occurrence { each, first, repeat };
    std::string assembly;
    Brings brings = Brings::part;
    Occurrence occurrence = Occurrence::each;
    Rule count; ///< pieces, points, wires, terminals, sheets or minutes
    std::string signal, wiring, via;
    bool fed_from_box = false;
    std::string function, where, work_class;
    double width_mm = 0, heat_w = 0, current_ma = 0; ///< of a part that the price book lacks

    /// What so many assemblies of the kind bring of it: all, one, or all but the first.
    int times(int quantity) const {
        if (quantity <= 0) return 0;
        return occurrence == Occurrence::first    ? 1
               : occurrence == Occurrence::repeat ? quantity - 1
                                                  : quantity;
    }
};

/// One activity: minutes or hours per driver.
struct LabourNorm {
    Rule rule; ///< value in `unit`
    std::string activity, work_class, driver;
    bool once = true; ///< once per kind of box, else for each box
    bool learning = false;
    std::string condition;     ///< always, or terms key=value joined by "and"
    double hours_per_unit = 1; ///< 1, 1/60, or 1/100 for a percentage
    std::string note;          ///< of a norm of 0 hours: the reason
};

struct SupplyRules {
    Rule volts, utilisation, knee_c, slope_percent_per_k, altitude_knee_m;
    OptionalRule altitude_percent_per_km;
    OptionalRule most_in_parallel;  ///< equal units that may share a load; absent: one
    OptionalRule most_redundant;    ///< units that carry a load beside one more; absent: one
    OptionalRule decoupling_inputs; ///< units that one decoupling parts; absent: two
    Rule power_factor;
    OptionalRule input_knee_v, input_percent_per_v; ///< supplies of a wide range on low mains
    OptionalRule spacing_mm;   ///< free at either side of a supply that gives its whole rating
    OptionalRule tight_factor; ///< what less space leaves of it where the part does not say
    /// A load's voltage may differ so far from line voltage over √3; absent: not at all.
    OptionalRule nominal_percent;
    OptionalRule backup_ageing; ///< share of a backup's energy left at the end of its life
};

/// Control transformers; NEC 450.3(B) in percent of the rated current.
struct TransformerRules {
    Rule inrush_factor;        ///< inrush VA per sealed VA of what is fed
    Rule inrush_multiple;      ///< inrush VA that a transformer gives, per VA of its nameplate
    Rule loss_percent;         ///< of a part without a loss of its own
    Rule secondary_protection; ///< 1: a device on either side; 0: on the primary side alone
    Rule high_from_a, low_below_a;
    Rule alone_high_percent, alone_percent, alone_low_percent; ///< primary device alone
    Rule primary_percent, secondary_high_percent, secondary_percent;
    Rule round_up_at_percent; ///< where the next rating above is allowed
};

/// Loss = rated × (l0 + l1 x + l2 x²), x = load ÷ rated.
struct LossRow {
    Rule l0, l1, l2;
};

struct HeatRules {
    Rule loop_resistance, loop_current, top_factor, reserve_k, circulation_factor, surface_u;
    OptionalRule output_drop_v, inner_film_emissivity, stirred_film, fouling_factor;
    OptionalRule unit_percent_per_k; ///< of a cooling unit's figure, per K away from 35 °C
};

/// Heaters against dew and cold.
struct HeatingRules {
    Rule humidity_percent; ///< inside, that a heater keeps
    Rule outdoor_factor;   ///< on the power of a heater outdoors
};

/// Sun on a box.
struct SolarRules {
    Rule irradiance, outer_film, unknown_finish;
    std::map<std::string, Rule> finishes; ///< share absorbed, by finish
};

/// Share of a face that counts as cooling surface.
struct FaceRules {
    Rule top, top_covered, side, side_covered, floor;
};

/// What a place forbids: a row per word of site.dust ("dust heavy") and site.corrosion.
struct SiteLimit {
    std::string key;
    std::vector<std::string> materials; ///< of the enclosure; empty: any
    std::vector<std::string> no_stages; ///< of cooling
    std::vector<std::string> marks;     ///< least marks, of which one is enough; empty: any

    bool allows_material(std::string_view material) const;
    bool allows_stage(std::string_view stage) const;
};

/// Surface of an enclosure material.
struct Material {
    std::string key;
    Rule emissivity_out, emissivity_in, u_low, u_high, wall_mm, wall_conductivity;
};

struct RoomBand {
    OptionalRule row_mm;  ///< height of a row with its clearances
    OptionalRule side_mm; ///< clearance at each side of a device
    OptionalRule air_mm;  ///< least clearance above and below a device
};

struct RoomSharing {
    std::string key; ///< "A|B|C|D": which bands share rows
    Rule most_rows;  ///< of a group of devices; 0: any number
    double gap_mm = 0;
};

struct RoomRules {
    Rule side_each_mm;          ///< from the plate's edge (beyond the duct) to the rail, each side
    OptionalRule device_row_mm; ///< row height of a band without one of its own
    RoomBand mains, supply, platform, other, terminals;
    OptionalRule strip_ends_mm, terminals_per_strip;
    bool one_row_if_it_fits = false;
    std::vector<Rule> duct_widths; ///< value = width, holds = high; empty: ducts inside the pitch
    OptionalRule duct_fill_share;
    OptionalRule least_duct_wall_mm, least_duct_floor_mm;
    std::vector<RoomSharing> sharings;
    OptionalRule door_air_mm, door_margin_mm, door_gap_mm, rail_height_mm, stand_off_wall_mm,
        stand_off_floor_mm;
};

/// Enclosures side by side as one panel; absent rows allow none.
struct SuiteRules {
    OptionalRule most, floor_enclosures, wall_boxes, heat_of_fullest_percent;
};

struct DefaultRow {
    std::string key, type, unit;
    std::string default_iec, default_north_america;
    std::optional<Decimal> minimum, maximum;
    std::optional<int> decimals;
    bool assumption = false;
    std::string group;
};

struct WordRow {
    std::string key, word, applies_to;
};

struct FindingRow {
    std::string code, title;
    Severity severity = Severity::note;
    std::optional<Decimal> limit, second_limit;
    std::string text, where;
    bool caution = false;
};

/// One spelling met in clients' lists: `meaning` is a heading role, or what a cell says.
struct Spelling {
    std::string key, meaning, text;
};

/// How the hours of equal boxes fall; trade-practice 2.5.
struct LearningRules {
    std::string theory; ///< crawford (hours of the n-th) or wright (mean of n); empty: no curve
    OptionalRule slope; ///< percent of the hours left at twice the number
};

/// What hours of named classes are multiplied by where the work is harder than usual.
struct HandFactor {
    Rule rule;
    std::string work_class, condition;
};

/// From cost to price. Words: `order` compound (overhead on direct cost and contingency) or
/// additive (on direct cost); `overhead_style` percent, per_hour or by_class; `margin_style` one or
/// by_class; `rates_are` cost or charge_out; `pack_charge` need, pack or part (rests whose part
/// says job); `tax_rounding` total or line. An empty word is the first of its list.
struct PricePolicy {
    Rule freight_percent, overhead, round_up_to, sundries_percent;
    Rule material_low_percent, material_high_percent;
    std::string currency, order, overhead_style, margin_style, rates_are, pack_charge, tax_rounding;
    OptionalRule overhead_per_hour; ///< currency per labour hour
    OptionalRule overhead_material, overhead_labour, overhead_subcontract; ///< percent
    OptionalRule margin_material, margin_labour, margin_subcontract;       ///< percent of price
    OptionalRule small_order_limit, small_order_surcharge; ///< currency, per maker and job
    OptionalRule escalation_percent_per_month;             ///< beyond the validity of a price
};

/// A sum that a rule adds to the bill: packing, carriage, reserve.
struct Charge {
    Rule rule;
    std::string description, role;
    std::string of; ///< percent of material, labour or direct; or an amount per box or job
    std::string condition;
};

/// Who bears what under a delivery term (2020 edition); true: the seller.
struct DeliveryTerm {
    std::string key, meaning;
    bool carriage = false, insurance = false, duty = false;
};

/// Units of a currency for one of the price book's.
struct ExchangeRate {
    std::string key; ///< ISO 4217
    Rule rate, buffer_percent;
    std::string date;
};

/// What an estimate of the class may miss by, percent.
struct EstimateClass {
    int number = 0;
    Rule low, high;
};

struct Ratio {
    std::string key, unit;
    std::optional<Decimal> low, high;
};

/// How many further points of a signal are tried for the next step of the price; absent: none.
struct PriceStepRules {
    OptionalRule share_percent, least_points;
};

/// The search for limits of a request that cannot be met together; no most_runs: none is made.
struct ConflictRules {
    OptionalRule most_runs; ///< questions until a set without idle limits is enough
    OptionalRule mild_c;    ///< outside temperature that limits nothing, °C
    /// Over so many boxes a box may be parted; absent: it is not.
    OptionalRule most_boxes;
};

/// Every rule as a typed view; the engine never looks up a cell by string. Made by make_rule_book
/// from rows that passed check_rules.
struct RuleBook {
    int issue = 1;
    std::vector<Signal> signals;
    std::vector<Interface> interfaces;
    std::vector<TerminalFunction> terminal_functions;
    std::vector<LinkRow> links;
    std::vector<DoorOpening> door_openings;
    std::vector<AssemblyRow> assemblies;
    std::map<std::string, Rule> terminals; ///< "DI contact", "DO relay", "incoming", "distribution"
    std::map<std::string, Rule>
        wires; ///< as above, "per module", "per device", "per box", "length"
    std::map<std::string, Rule> protection; ///< "distribution_channels", "main_switch"
    SupplyRules supply;
    std::optional<TransformerRules> transformers; ///< nothing: none is sized
    std::map<std::string, LossRow> losses;        ///< by efficiency row
    HeatRules heat;
    HeatingRules heating;
    SolarRules solar;
    FaceRules faces;
    std::vector<SiteLimit> site_limits;
    std::vector<SurgeRow> surge_protection; ///< the first whose condition holds decides
    std::vector<ApprovalRow> approval_parts;
    /// By type ("4X"): the types that it covers, itself among them.
    std::map<std::string, std::vector<std::string>, std::less<>> type_coverage;
    std::vector<Material> materials;
    RoomRules room;
    SuiteRules suites;
    std::vector<Rule> breaker_ratings_iec, breaker_ratings_north_america;
    std::vector<Rule> fuse_ratings_iec, fuse_ratings_north_america;
    std::vector<Conductor> conductors;
    ConductorColumns conductor_columns;
    std::vector<AmbientFactor> ambient_factors;   ///< by air, from the coolest on
    std::vector<GroupingFactor> grouping_factors; ///< by number, from the smallest on
    WiresTogether wires_together;
    std::vector<BendingSpace> bending_spaces; ///< by conductor, from the thinnest on
    /// By "PRACTICE KIND" or "PRACTICE KIND FUNCTION"; parts without a row count by their own
    /// rating alone.
    std::map<std::string, ShortCircuitRow> short_circuit;
    std::string smallest_incoming_iec, smallest_incoming_north_america;
    OptionalRule continuous_factor_north_america;
    std::vector<SmallPartRow> small_parts; ///< cables by the greatest diameter, after the others
    std::vector<CableRow> cables;          ///< of channels, then of feeds by section
    std::vector<BundleRow> bundles;        ///< by cores
    std::vector<LabourNorm> labour;
    std::map<std::string, Rule> rates;  ///< by class
    std::map<std::string, Rule> sheets; ///< drawing sheets by counted item
    Rule shop_hours_per_week, test_weeks;
    PricePolicy policy;
    Rule labour_correlation;
    OptionalRule draws;
    std::vector<Ratio> ratios;
    PriceStepRules price_steps;
    ConflictRules conflicts;
    LearningRules learning;
    std::vector<HandFactor> hand_factors;
    OptionalRule most_hand_factor; ///< the product of all stays below
    std::vector<Charge> charges;
    std::vector<DeliveryTerm> delivery_terms;
    std::vector<ExchangeRate> exchange_rates;
    std::vector<EstimateClass> estimate_classes;
    std::map<std::string, int> currency_digits;
    std::vector<DefaultRow> defaults;
    std::vector<WordRow> words;
    std::vector<Spelling> headings;  ///< meaning: tag, description, type, electrics, panel, …
    std::vector<Spelling> spellings; ///< meaning: a signal, or bus, soft, none, spare, relay …
    std::vector<FindingRow> findings;
    std::map<std::string, std::string> assumption_texts;
    std::vector<OfferTextRow> offer_texts;
    std::map<std::string, Rule> offer_figures; ///< figures of the offer's sentences
    /// Values by `table/row` where they are texts ("shop/practice") or a default refers to them
    /// ("price_policy/margin").
    std::map<std::string, std::string> texts;
    bool norms_confirmed = false;

    const Signal* find_signal(std::string_view key) const;
    /// The row of this way for the signal; null for direct wiring and where there is none.
    const Interface* find_interface(std::string_view via, std::string_view signal) const;
    /// Percent that the sundries fall by where a small part of the group is a line; null: none.
    const Rule* sundries_share(std::string_view group) const;
    const LinkRow* find_link(std::string_view medium) const; ///< null: a medium without a row
    const FindingRow* find_finding(std::string_view code) const;
    const Material* find_material(std::string_view key) const;
    const DeliveryTerm* find_term(std::string_view key) const;
    const ExchangeRate* find_exchange(std::string_view currency) const;
    /// Null where the word of site.dust or site.corrosion forbids nothing.
    const SiteLimit* find_site_limit(std::string_view key) const;
    int digits_of(const std::string& currency) const; ///< 2 where the currency has no row
};

struct RuleBookResult {
    std::shared_ptr<const RuleBook> book; ///< null where faults forbid it
    std::vector<RuleFault> faults;
};

/// Checks every row and makes the typed views. A missing row that the engine needs is a fault.
RuleBookResult make_rule_book(const RuleTables& tables);

} // namespace backplate
