#include <array>

#include "pricing/book/rule_columns.h"

namespace backplate {
namespace {

using enum CellType;
using namespace rule_columns;

constexpr ColumnSpec value_column{"value", text, false, "the figure, or a word of the table"};
constexpr ColumnSpec unit_column{"unit", text, false, "what the figure is counted in"};
constexpr ColumnSpec low_column{"low", number, false, "lowest usual figure"};
constexpr ColumnSpec high_column{"high", number, false, "highest usual figure"};
constexpr ColumnSpec minimum_column{"minimum", number, false, "least figure that is accepted"};
constexpr ColumnSpec maximum_column{"maximum", number, false, "greatest figure that is accepted"};
constexpr ColumnSpec explanation_column{"explanation", text, false, "what the figure does"};

constexpr auto plain = std::array{value_column,   unit_column,    low_column,        high_column,
                                  minimum_column, maximum_column, explanation_column};

constexpr auto hours = std::array{
    ColumnSpec{"value", number, true, "time per driver, or percent of hours", {}, 0, 100000},
    ColumnSpec{"unit", text, true, "first word h, min or %"},
    low_column,
    high_column,
    minimum_column,
    maximum_column,
    explanation_column,
    ColumnSpec{"activity", word, true, "line of the hours that it belongs to"},
    ColumnSpec{"class", word, true, "hourly rate that it is paid with"},
    ColumnSpec{"driver", text, true, "what is counted"},
    ColumnSpec{"count", word, true, "once for equal boxes, or for each", "once each"},
    ColumnSpec{"learning", flag, true, "falls with the number of equal boxes"},
    ColumnSpec{"condition", text, true, "always, or terms key=value joined by and"}};

constexpr auto hand_factors =
    std::array{ColumnSpec{"value", number, true, "what the hours are multiplied by", {}, 0.1, 10},
               unit_column,
               low_column,
               high_column,
               minimum_column,
               maximum_column,
               explanation_column,
               ColumnSpec{"class", word, false, "hours of this class; the limit has none"},
               ColumnSpec{"condition", text, true, "always, or terms key=value joined by and"}};

constexpr auto charges = std::array{
    ColumnSpec{"value", number, true, "percent, or an amount in the price book's currency"},
    unit_column,
    low_column,
    high_column,
    minimum_column,
    maximum_column,
    explanation_column,
    ColumnSpec{"description", text, true, "as it stands on the bill"},
    ColumnSpec{"role", word, true, "role of its line on the bill"},
    ColumnSpec{"of", word, true, "what it is a percentage of, or what it is paid for",
               "material labour direct box job"},
    ColumnSpec{"condition", text, true, "always, or terms key=value joined by and"}};

constexpr std::string_view parties = "seller buyer";

constexpr auto delivery_terms =
    std::array{ColumnSpec{"meaning", text, true, "what the letters stand for"},
               ColumnSpec{"carriage", word, true, "who pays the main carriage", parties},
               ColumnSpec{"insurance", word, true, "who must insure the carriage", parties},
               ColumnSpec{"duty", word, true, "who pays import duty", parties}};

constexpr auto exchange_rates = std::array{
    ColumnSpec{"rate", number, true, "units for one of the price book's currency"},
    ColumnSpec{"date", text, true, "day of the rate"},
    ColumnSpec{"buffer_percent", number, true, "added against a change of the rate", {}, 0, 100}};

constexpr auto estimate_classes =
    std::array{ColumnSpec{"low", number, true, "lowest outcome against the price, %", {}, -100, 0},
               ColumnSpec{"high", number, true, "highest outcome, %", {}, 0, 1000}};

constexpr auto signals = std::array{
    ColumnSpec{"meaning", text, true, "what the signal is"},
    ColumnSpec{"wiring", word, true, "wiring taken where none is stated"},
    ColumnSpec{
        "amps", number, false, "current of the field device at rated voltage, A", {}, 0, 100},
    ColumnSpec{"volts_iec", number, false, "rated voltage, V", {}, 1, 1000},
    ColumnSpec{"volts_north_america", number, false, "rated voltage, V", {}, 1, 1000},
    ColumnSpec{"fed_from_box", flag, true, "the field device takes its power from the box"},
    ColumnSpec{"fed_from_box_with_via", flag, false, "the same behind an interface"},
    ColumnSpec{"power", word, true, "way of the 24 V current",
               "input loop_in loop_out switched passive"},
    ColumnSpec{"work_class", word, true, "norm of software and test",
               "digital analogue temperature special safety"},
    ColumnSpec{"level", word, true, "voltage level of the terminals", "extra-low mains"},
    ColumnSpec{"special", flag, true, "needs a module of its own kind"},
    ColumnSpec{"volts_low", number, false, "lowest voltage of its channels, V", {}, 0, 1500},
    ColumnSpec{"volts_high", number, false, "highest voltage of its channels, V", {}, 0, 1500},
    ColumnSpec{"shielded", flag, true, "its cable has a screen to land"}};

constexpr auto interfaces = std::array{
    ColumnSpec{"via", word, true, "what stands between channel and field terminal"},
    ColumnSpec{"signal", word, true, "signal of the field side"},
    ColumnSpec{"module_signal", word, true, "signal that the module serves, or same"},
    ColumnSpec{"part_kind", word, false, "kind of part, where it takes one"},
    ColumnSpec{"function", text, false, "function of the part within its kind"},
    ColumnSpec{"plain", flag, false, "a part without a function serves as well"},
    ColumnSpec{
        "parts_per_channel", number, false, "parts for one channel, where it takes one", {}, 0, 10},
    ColumnSpec{"terminal_function", text, false,
               "function that one terminal of the channel takes on"},
    ColumnSpec{"terminals_change",
               number,
               false,
               "terminals of a channel against direct wiring",
               {},
               -40,
               40},
    ColumnSpec{"wires_change",
               number,
               false,
               "inside wires of a channel against direct wiring",
               {},
               -40,
               40},
    ColumnSpec{"width_mm", number, false, "where the part says nothing", {}, 0, 500},
    ColumnSpec{"heat_w", number, false, "where the part says nothing, W", {}, 0, 100},
    ColumnSpec{"current_ma", number, false, "at 24 V where the part says nothing, mA", {}, 0, 1000},
    ColumnSpec{"drop_v", number, false, "voltage across its closed output", {}, 0, 10},
    ColumnSpec{"feeds_loop", flag, false,
               "the loop draws from the part: its current is in the part's own"},
    ColumnSpec{"isolates", flag, false, "channels are isolated by it"}};

constexpr auto terminal_functions =
    std::array{ColumnSpec{"channel", text, true, "row of the table terminals"},
               ColumnSpec{"function", text, true, "function of the terminals"},
               ColumnSpec{"pieces", integer, true, "of the terminals of a channel", {}, 1, 40}};

constexpr auto door_openings = std::array{
    ColumnSpec{"opening", word, true, "cut for it", "none round rectangular"},
    ColumnSpec{"mounted_as", word, true, "its row of the hours", "door_device operator_panel"}};

constexpr auto links = std::array{
    ColumnSpec{"value", number, true, "longest line without a repeater", {}, 1, 1000000},
    unit_column,
    low_column,
    high_column,
    minimum_column,
    maximum_column,
    explanation_column,
    ColumnSpec{"part_kind", word, false, "kind of the part at each end, where it takes one"},
    ColumnSpec{"function", text, false, "function of that part"}};

constexpr auto assemblies = std::array{
    ColumnSpec{"assembly", text, true, "name that a request asks for"},
    ColumnSpec{"brings", word, true, "what one assembly adds",
               "points part wires terminals sheets minutes network"},
    ColumnSpec{"occurrence", word, true, "counted for each, for the first or for the others",
               "each first repeat"},
    ColumnSpec{"value", number, true, "how many, or minutes", {}, 0, 100000},
    ColumnSpec{"unit", text, true, "what the figure is counted in"},
    low_column,
    high_column,
    ColumnSpec{"signal", word, false, "points: their signal"},
    ColumnSpec{"wiring", word, false, "points: their wiring"},
    ColumnSpec{"via", word, false, "points: what stands before the terminal"},
    ColumnSpec{"fed_from_box", flag, false, "points: the device takes its power from the box"},
    ColumnSpec{"function", text, false, "part: its function"},
    ColumnSpec{"where", word, false, "part: its place", "rail plate door outside"},
    ColumnSpec{"class", word, false, "minutes and sheets: class of work"},
    ColumnSpec{"width_mm", number, false, "part that the price book lacks", {}, 0, 1000},
    ColumnSpec{"heat_w", number, false, "part that the price book lacks, W", {}, 0, 10000},
    ColumnSpec{
        "current_ma", number, false, "part that the price book lacks, 24 V, mA", {}, 0, 10000}};

constexpr auto materials = std::array{
    ColumnSpec{"u_low", number, true, "W/(m²K), for a temperature rise", {}, 0.1, 50},
    ColumnSpec{"u_high", number, true, "W/(m²K), for heat let in or lost", {}, 0.1, 50},
    ColumnSpec{"emissivity_out", number, true, "of the outer face", {}, 0, 1},
    ColumnSpec{"emissivity_in", number, true, "exchange of devices and inner face", {}, 0, 1},
    ColumnSpec{"wall_mm", number, true, "thickness of the wall", {}, 0.1, 200},
    ColumnSpec{"wall_conductivity", number, true, "W/(m K)", {}, 0.001, 500}};

constexpr auto site_limits =
    std::array{ColumnSpec{"materials", text, false, "enclosures allowed, by blanks; empty: any"},
               ColumnSpec{"no_stages", text, false, "stages of cooling that are not allowed"},
               ColumnSpec{"least_marks", text, false,
                          "marks of which one must be met, by strokes: IP44|Type 3R"}};

constexpr auto type_coverage =
    std::array{ColumnSpec{"covers", text, true, "types that it meets, itself among them"}};

constexpr auto currencies =
    std::array{ColumnSpec{"digits", integer, true, "decimals of printed amounts", {}, 0, 4}};

constexpr auto defaults = std::array{
    ColumnSpec{"type", word, true, "type of the key",
               "object list text date word words word_or_object flag integer number percent money "
               "hours range percent_map integer_map"},
    ColumnSpec{"unit", text, false, "unit of the value"},
    ColumnSpec{"default_iec", text, true, "value taken where the key is absent"},
    ColumnSpec{"default_north_america", text, true, "the same for north_america"},
    ColumnSpec{"minimum", number, false, "least value accepted"},
    ColumnSpec{"maximum", number, false, "greatest value accepted"},
    ColumnSpec{"decimals", integer, false, "most decimals; empty: any", {}, 0, 9},
    ColumnSpec{"assumption", flag, true, "its absence is printed"},
    ColumnSpec{"group", word, false, "printed as one assumption"}};

constexpr auto words = std::array{
    ColumnSpec{"key", text, true, "key of a request (#: of an estimate, @: of the library)"},
    ColumnSpec{"word", text, true, "accepted word, or a pattern between strokes"},
    ColumnSpec{"meaning", text, false, "what the word says"},
    ColumnSpec{"applies_to", text, false, "signals or edition that it is for"}};

constexpr auto findings =
    std::array{ColumnSpec{"title", text, true, "short name"},
               ColumnSpec{"severity", word, true, "weight of the doubt", "note warning stop"},
               ColumnSpec{"trigger", text, true, "when it is raised"},
               ColumnSpec{"limit_value", number, false, "limit in the trigger"},
               ColumnSpec{"unit", text, false, "unit of the limit"},
               ColumnSpec{"text", text, true, "what is printed, with {parameters}"},
               ColumnSpec{"where", text, true, "place in the request or (#) the estimate"},
               ColumnSpec{"kind", word, true, "what it touches", "quantity rate omission"},
               ColumnSpec{"caution", flag, true, "stands on the client's document"}};

constexpr auto assumptions =
    std::array{ColumnSpec{"text", text, true, "sentence of the group, with {values}"}};

constexpr auto texts = std::array{
    ColumnSpec{"section", word, true, "where it stands in the offer",
               "scope option exclusion assumption caution terms"},
    ColumnSpec{"subject", text, true, "what it is about: at most one text of a subject prints"},
    ColumnSpec{"condition", text, true, "always, or terms key=value joined by and"},
    ColumnSpec{"text", text, true, "sentence of the offer, with {values}"},
    ColumnSpec{"instead_of", text, false, "findings whose caution need not stand beside it"}};

constexpr auto spellings = std::array{ColumnSpec{"meaning", word, true, "what the text says"},
                                      ColumnSpec{"text", text, true, "as it stands in lists"}};

constexpr auto price_list_spellings = std::array{
    ColumnSpec{
        "meaning", word, true, "field of the part, or what the cell says",
        "part alias maker list net currency price_unit price_date discount_percent "
        "valid_until pack lead_days minimum_order state successor one_piece per_pack on_request"},
    ColumnSpec{"text", text, true, "as it stands in lists"}};

constexpr auto schema = std::array{
    TableSpec{"signals", "how each kind of point behaves", signals},
    TableSpec{"interfaces", "what may stand between a channel and its terminal", interfaces},
    TableSpec{"terminals", "terminals per channel, box or device", plain, true},
    TableSpec{"terminal_functions", "terminals of a channel that are no plain ones",
              terminal_functions},
    TableSpec{"wires", "inside wires per channel, box or device", plain, true},
    TableSpec{"links", "lines between a box and its controller, by medium", links},
    TableSpec{"door_openings", "openings of door parts, by their function", door_openings},
    TableSpec{"assemblies", "ready assemblies: points, parts, wires, hours", assemblies},
    TableSpec{"protection", "protective devices per box", plain, true},
    TableSpec{"supply", "sizing of the 24 V supply", plain, true},
    TableSpec{"transformers", "control transformers and their protection", plain, true},
    TableSpec{"supply_loss", "losses of supplies against their load", plain, true},
    TableSpec{"heat", "heat inside and its way out", plain, true},
    TableSpec{"heating", "heaters against dew and cold", plain, true},
    TableSpec{"materials", "surfaces of enclosures", materials},
    TableSpec{"solar", "sun on a box, by finish", plain, true},
    TableSpec{"faces", "share of a face that cools", plain, true},
    TableSpec{"site_limits", "what dust and corrosion forbid", site_limits},
    TableSpec{"surge_protection", "when a box takes surge arresters", surge_protection},
    TableSpec{"approval_parts", "of which parts an approval is asked", approval_parts},
    TableSpec{"type_coverage", "which type marks meet which", type_coverage},
    TableSpec{"room", "rows, ducts and gaps on the plate", plain, true},
    TableSpec{"suites", "enclosures side by side as one panel", plain, true},
    TableSpec{"wiring", "conductors", plain, true},
    TableSpec{"north_america", "factors of that practice", plain, true},
    TableSpec{"breaker_ratings", "standard ratings", breaker_ratings},
    TableSpec{"conductors", "current that a conductor may carry", conductors},
    TableSpec{"ambient_factors", "what warm air leaves of an ampacity", ambient_factors},
    TableSpec{"grouping_factors", "what conductors lying together leave of an ampacity",
              grouping_factors},
    TableSpec{"bending_space", "room in which a conductor bends at its terminal", bending_space},
    TableSpec{"wires_together", "what lies beside incoming conductors and supply wires", plain,
              true},
    TableSpec{"short_circuit", "ratings of parts of the power circuit that state none", plain,
              true},
    TableSpec{"small_parts", "small parts that are lines where the price book has them",
              small_parts},
    TableSpec{"cables", "cable and common side of a channel; cables of feeds", cables},
    TableSpec{"cable_bundles", "diameter of cores laid together", cable_bundles},
    TableSpec{"hours", "labour norms", hours},
    TableSpec{"rates", "price of an hour by class", plain, true},
    TableSpec{"sheets", "drawing sheets by what is counted", plain, true},
    TableSpec{"delivery", "time in the shop", plain, true},
    TableSpec{"price_policy", "from cost to price", plain, true},
    TableSpec{"risk", "spread of the cost", plain, true},
    TableSpec{"ratios", "usual ranges of ratios", plain, true},
    TableSpec{"conflicts", "search for limits that cannot be met together", plain, true},
    TableSpec{"price_steps", "further points that are tried", plain, true},
    TableSpec{"learning", "how the hours of equal boxes fall", plain, true},
    TableSpec{"hand_factors", "harder work than usual, switched on by hand", hand_factors},
    TableSpec{"charges", "sums that a rule adds to the bill", charges},
    TableSpec{"delivery_terms", "who bears what", delivery_terms},
    TableSpec{"exchange_rates", "currencies other than the price book's", exchange_rates},
    TableSpec{"estimate_classes", "what an estimate may miss by", estimate_classes},
    TableSpec{"shop", "what this shop has settled", plain, true},
    TableSpec{"currencies", "decimals of currencies", currencies},
    TableSpec{"defaults", "keys of a request", defaults},
    TableSpec{"words", "words that a key takes", words},
    TableSpec{"findings", "doubts and cautions", findings},
    TableSpec{"finding_limits", "second limits in the triggers of findings", plain, true},
    TableSpec{"assumptions", "sentences for what was left open", assumptions},
    TableSpec{"texts", "sentences of the offer: scope, exclusions, cautions, terms", texts},
    TableSpec{"offer_figures", "figures in the sentences of the offer", plain, true},
    TableSpec{"headings", "headings of clients' lists", spellings},
    TableSpec{"spellings", "spellings in clients' lists", spellings},
    TableSpec{"price_list_spellings", "headings and words of suppliers' price lists",
              price_list_spellings},
    TableSpec{"price_list_limits", "what of a supplier's price list is suspicious", plain, true}};

} // namespace

std::span<const TableSpec> rule_schema() { return schema; }

std::span<const ColumnSpec> value_columns() { return plain; }

const TableSpec* find_table_spec(std::string_view name) {
    for (const TableSpec& spec : schema)
        if (spec.name == name) return &spec;
    return nullptr;
}

} // namespace backplate
