#include "pricing/cost/bill.h"

namespace backplate {
namespace {

std::string pack_note(const Part& part, std::int64_t quantity) {
    if (part.pack <= 1 || quantity % part.pack == 0) return {};
    const std::int64_t bought = (quantity + part.pack - 1) / part.pack * part.pack;
    return "packs of " + steps_text(part.pack, 0) + ", " + steps_text(bought - quantity, 0) +
           " to " + (part.rest_to.empty() ? "stock" : part.rest_to);
}

BillLine part_line(const BillItem& item) {
    const Part& part = *item.part;
    BillLine line;
    line.part = part.key;
    line.description = part.description;
    line.unit = part.unit;
    line.list = part.list;
    line.unit_net = part.net();
    line.price_date = part.price_date;
    line.lead_days = part.lead_days;
    line.note = pack_note(part, item.quantity);
    return line;
}

BillLine text_line(const BillItem& item) {
    BillLine line;
    line.description = item.equipment->asked->text;
    line.unit_net = item.equipment->asked->price;
    if (item.role == "free_issue") line.note = "free issue by client";
    return line;
}

BillLine sundries_line(const RuleBook& rules) {
    BillLine line;
    line.description = "Ferrules, marks, screws, small parts";
    line.role = "sundries";
    line.quantity = 1;
    line.unit = "lump_sum";
    line.note = Percent::of(rules.policy.sundries_percent.value).text() + " % of the lines above";
    return line;
}

} // namespace

std::vector<BillLine> bill_lines(const std::vector<BillItem>& items, const Box& box,
                                 const RuleBook& rules, int digits) {
    std::vector<BillLine> lines;
    for (const BillItem& item : items) {
        lines.push_back(item.part ? part_line(item) : text_line(item));
        lines.back().role = item.role;
        lines.back().quantity = item.quantity;
    }
    lines.push_back(sundries_line(rules));
    for (std::size_t i = 0; i < lines.size(); ++i) {
        lines[i].line = static_cast<int>(i) + 1;
        lines[i].box = box.name;
    }
    reprice(lines, box, rules, digits);
    return lines;
}

void reprice(std::vector<BillLine>& lines, const Box& box, const RuleBook& rules, int digits) {
    Money above;
    for (BillLine& line : lines) {
        if (line.role == "sundries")
            line.unit_net = above.share(Percent::of(rules.policy.sundries_percent.value), digits);
        if (!line.unit_net) continue;
        line.line_net = line.unit_net->times(line.quantity).rounded(digits);
        line.line_all = line.line_net->times(box.quantity);
        above += *line.line_net;
    }
}

namespace {

void record_unit_price(const BillLine& line, const BillItem& item, const std::string& at,
                       Recorder& recorder) {
    if (item.part->discounts.empty()) return;
    BasisEntry entry{at + "unit_net",
                     line.unit_net->unit_text(2),
                     "",
                     "a",
                     "price_policy/discount_chain",
                     {},
                     "trade-practice 4.1: discounts multiply, rounded once to four decimals"};
    for (const Percent& discount : item.part->discounts)
        entry.formula += " × (1 − " + discount.text() + " ÷ 100)";
    entry.inputs = {from_part(line.part + "/list", line.list->unit_text(2), "")};
    recorder.add(std::move(entry));
}

void record_sundries(const std::vector<BillLine>& lines, const RuleBook& rules,
                     Recorder& recorder) {
    const Rule& percent = rules.policy.sundries_percent;
    Money above;
    for (std::size_t i = 0; i + 1 < lines.size(); ++i)
        if (lines[i].line_net) above += *lines[i].line_net;
    recorder.add(
        {"/bill/" + steps_text(static_cast<std::int64_t>(lines.size()) - 1, 0) + "/line_net",
         lines.back().line_net->text(Money::places),
         "",
         above.text(Money::places) + " × a ÷ 100",
         percent.id,
         {from_rule(percent.id, percent.text(), percent.unit)},
         percent.source});
}

} // namespace

void record_bill(const std::vector<BillLine>& lines, const std::vector<BillItem>& items,
                 const RuleBook& rules, Recorder& recorder) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        const BillLine& line = lines[i];
        const std::string at = "/bill/" + steps_text(static_cast<std::int64_t>(i), 0) + "/";
        if (!items[i].part || !line.unit_net) continue;
        record_unit_price(line, items[i], at, recorder);
        recorder.add({at + "line_net",
                      line.line_net->text(Money::places),
                      "",
                      "a × b",
                      "price_policy/line",
                      {from_figure(at + "quantity", steps_text(line.quantity, 0), line.unit),
                       from_figure(at + "unit_net", line.unit_net->text(Money::places), "")},
                      "trade-practice 4.1: the line rounded once"});
    }
    record_sundries(lines, rules, recorder);
}

Money material_of(const std::vector<BillLine>& lines) {
    Money sum;
    for (const BillLine& line : lines)
        if (line.line_all) sum += *line.line_all;
    return sum;
}

} // namespace backplate
