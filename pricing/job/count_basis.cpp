#include "pricing/job/panel_basis.h"
#include "pricing/panel/line_wiring.h"
#include "pricing/panel/wiring.h"

namespace backplate {
namespace {

std::string pieces(std::int64_t count) { return steps_text(count, 0); }

/// Pieces before they are rounded to whole ones.
std::string exact_pieces(const std::vector<CountTerm>& terms) {
    return number_text(static_cast<double>(piece_steps(terms)) / steps_per_piece);
}

/// "48 × a + 15 × b": what does not fit the letters stands summed up as one number.
BasisEntry counted(std::string figure, const char* unit, const char* rule,
                   const std::vector<CountTerm>& terms, const char* source) {
    BasisEntry entry{std::move(figure), exact_pieces(terms), unit, "", rule, {}, source};
    constexpr std::size_t most_inputs = 50;
    std::vector<CountTerm> rest;
    for (const CountTerm& term : terms) {
        if (entry.inputs.size() == most_inputs) {
            rest.push_back(term);
            continue;
        }
        entry.formula += (entry.formula.empty() ? "" : " + ") + pieces(term.count) + " × " +
                         input_letter(entry.inputs.size());
        entry.inputs.push_back(from_rule(term.rule->id, term.rule->text(), term.rule->unit));
    }
    if (!rest.empty()) entry.formula += " + " + exact_pieces(rest);
    return entry;
}

void record_room(const PanelDesign& design, const std::string& box, Recorder& recorder) {
    std::int64_t occupied = 0;
    for (const BandNeed& band : design.need.bands) occupied += band.width;
    const std::string rails =
        pieces(design.room.total_rows) + " × " + steps_text(design.room.rail, 1);
    const std::string taken = steps_text(occupied, 1);
    recorder.add({box + "/enclosures/0/room_left_percent",
                  number_text(design.room.room_left_percent),
                  "%",
                  "(" + rails + " − " + taken + ") × 100 ÷ " + taken,
                  "room/of_occupied_rail",
                  {},
                  "rows by the room rule times the rail, less the widths of the devices, in "
                  "percent of these; mm"});
}

} // namespace

void record_counts(const PanelChoice& choice, Recorder& recorder) {
    const PanelDesign& design = *choice.design;
    const SearchFacts& search = *choice.search;
    const std::string box = "/boxes/" + pieces(static_cast<std::int64_t>(search.facts.box->index));
    std::vector<CountTerm> terminals = signal_terminal_terms(design, search);
    for (const CountTerm& term : device_terminal_terms(design, search)) terminals.push_back(term);
    recorder.add(counted(box + "/terminals", "terminals", "terminals/per_channel", terminals,
                         "electrical-facts 8; fitted channels where the spare is wired"));
    recorder.add(counted(box + "/wires", "wires", "wires/per_channel", wire_terms(design, search),
                         "electrical-facts 8 and RS-1"));
    record_room(design, box, recorder);
}

void record_delivery(const Estimate& estimate, const RuleBook& rules, Recorder& recorder) {
    BasisEntry entry{"/delivery/weeks",
                     pieces(*estimate.delivery_weeks),
                     "weeks",
                     "",
                     "delivery/chain",
                     {},
                     "trade-practice 5, row 21: critical part, build, test"};
    for (std::size_t i = 0; i < estimate.bill.size(); ++i)
        if (estimate.bill[i].part == estimate.critical_part && !estimate.critical_part.empty()) {
            entry.formula = "ceil(a ÷ 7) + ";
            entry.inputs.push_back(
                from_figure("/bill/" + pieces(static_cast<std::int64_t>(i)) + "/lead_days",
                            pieces(*estimate.bill[i].lead_days), "days"));
            break;
        }
    std::string shop;
    for (std::size_t i = 0; i < estimate.labour.size(); ++i) {
        if (estimate.labour[i].work_class != "shop") continue;
        shop += (shop.empty() ? "" : " + ") + input_letter(entry.inputs.size());
        entry.inputs.push_back(
            from_figure("/labour/" + pieces(static_cast<std::int64_t>(i)) + "/hours",
                        estimate.labour[i].hours.text(), "h"));
    }
    const std::string pace = input_letter(entry.inputs.size());
    const std::string test = input_letter(entry.inputs.size() + 1);
    entry.formula +=
        "ceil((" + (shop.empty() ? "0" : shop) + ") ÷ " + pace + ") + ceil(" + test + ")";
    for (const Rule* rule : {&rules.shop_hours_per_week, &rules.test_weeks})
        entry.inputs.push_back(from_rule(rule->id, rule->text(), rule->unit));
    recorder.add(std::move(entry));
}

} // namespace backplate
