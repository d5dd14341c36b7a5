#include "pricing/cost/bill.h"

#include <algorithm>
#include <map>
#include <utility>

#include "pricing/cost/charges.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

/// What a part that is not ordered in the number needed leaves over, in words.
std::string rest_note(const BillLine& line, const Part& part, std::int64_t need) {
    if (line.to_buy == need) return {};
    const std::string rest = steps_text(line.to_buy - need, 0);
    const std::string packs = "packs of " + steps_text(part.pack, 0) + ", ";
    return (part.pack > 1 ? packs : "minimum order " + steps_text(part.minimum_order, 0) + ", ") +
           rest + " to " + (line.rest_charged > 0 ? "the job" : "stock");
}

/// What a gland takes and what it is for.
std::string gland_note(const BillItem& item, bool inch) {
    if (!item.small || !item.small->from) return {};
    return "takes " +
           length_range_text(item.small->from->number(), item.small->up_to->number(), inch) +
           "; cables of " + length_range_text(item.least_mm, item.most_mm, inch);
}

bool charged(const Part& part, const std::string& pack_charge) {
    return pack_charge == "pack" || (pack_charge == "part" && part.rest_to == "job");
}

/// `rest`: pieces that the job orders beyond its need, put on this line.
BillLine part_line(const BillItem& item, const BidRequest& request, const Box& box,
                   std::int64_t rest, const RuleBook& rules) {
    const Part& part = *item.part;
    BillLine line;
    line.part = part.key;
    line.description = part.description;
    line.unit = part.unit;
    line.list = part.list;
    line.unit_net = part.net();
    line.price_date = part.price_date;
    line.valid_until = part.valid_until;
    line.lead_days = part.lead_days;
    line.maker = part.maker;
    line.allowance = part.allowance;
    if (part.valid_until)
        line.months_uncovered =
            months_between(*part.valid_until, request.date.plus_days(request.valid_days));
    const std::int64_t need = item.quantity * box.quantity;
    line.to_buy = need + rest;
    if (charged(part, rules.policy.pack_charge)) line.rest_charged = rest;
    line.note = rest_note(line, part, need);
    if (const std::string gland = gland_note(item, request.inch); !gland.empty())
        line.note += (line.note.empty() ? "" : "; ") + gland;
    return line;
}

BillLine text_line(const BillItem& item) {
    BillLine line;
    line.description = item.equipment->asked->text;
    line.unit_net = item.equipment->asked->price;
    if (item.role == "free_issue") line.note = "free issue by client";
    return line;
}

BillLine sundries_line(const RuleBook& rules, const BoxBill& box) {
    BillLine line;
    line.description = "Ferrules, marks, screws, small parts";
    if (!box.shares.empty()) line.description = "Ferrules, screws, small parts without a line";
    line.share = sundries_left(rules, box.shares);
    line.role = "sundries";
    line.quantity = 1;
    line.unit = "lump_sum";
    line.note = line.share->text() + " % of the lines above";
    return line;
}

} // namespace

std::int64_t pieces_to_buy(const Part& part, std::int64_t need) {
    const std::int64_t pack = std::max(1, part.pack);
    const std::int64_t least = std::max<std::int64_t>(need, part.minimum_order);
    return need == 0 ? 0 : (least + pack - 1) / pack * pack;
}

namespace {

/// Pieces of every part that the job orders beyond its need.
std::map<const Part*, std::int64_t> rests_of(const std::vector<BoxBill>& boxes) {
    std::map<const Part*, std::int64_t> needs, rests;
    for (const BoxBill& box : boxes)
        for (const BillItem& item : *box.items)
            if (item.part) needs[item.part] += item.quantity * box.box->quantity;
    for (const auto& [part, need] : needs) rests[part] = pieces_to_buy(*part, need) - need;
    return rests;
}

const Box& box_of(const BillLine& line, const BidRequest& request) {
    for (const Box& box : request.boxes)
        if (box.name == line.box) return box;
    return request.boxes.front();
}

} // namespace

std::vector<BillLine> bill_lines(const std::vector<BoxBill>& boxes,
                                 const std::vector<LabourLine>& labour, const BidRequest& request,
                                 const RuleBook& rules, int digits) {
    std::vector<BillLine> lines;
    auto rests = rests_of(boxes);
    for (const BoxBill& box : boxes) {
        const std::size_t first = lines.size();
        for (const BillItem& item : *box.items) {
            const std::int64_t rest = item.part ? std::exchange(rests[item.part], 0) : 0;
            lines.push_back(item.part ? part_line(item, request, *box.box, rest, rules)
                                      : text_line(item));
            lines.back().role = lines.back().allowance ? "allowance" : item.role;
            lines.back().quantity = item.quantity;
        }
        lines.push_back(sundries_line(rules, box));
        for (std::size_t i = first; i < lines.size(); ++i) lines[i].box = box.box->name;
    }
    reprice(lines, labour, request, rules, digits);
    add_charges(lines, labour, request, rules, digits);
    return lines;
}

void reprice(std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
             const BidRequest& request, const RuleBook& rules, int digits) {
    Money above; // in the same box
    for (BillLine& line : lines) {
        if (!line.charge.empty()) continue;
        const bool sundries = line.role == "sundries";
        if (sundries)
            line.unit_net = above.share(
                line.share.value_or(Percent::of(rules.policy.sundries_percent.value)), digits);
        if (!line.unit_net) continue;
        line.line_net = line.unit_net->times(line.quantity).rounded(digits);
        line.line_all = line.line_net->times(box_of(line, request).quantity);
        above = sundries ? Money{} : above + *line.line_net;
    }
    reprice_charges(lines, labour, request, rules, digits);
}

namespace {

/// A list price in another currency than the price book's.
void record_exchange(const BillLine& line, const std::string& at, const ExchangeRate& exchange,
                     const PriceBook& book, Recorder& recorder) {
    const Part* part = book.find(line.part);
    if (!part || !part->list) return;
    const Rule& rate = exchange.rate;
    recorder.add({at + "list",
                  line.list->text(Money::places),
                  "",
                  "a × b × (1 + c ÷ 100)",
                  rate.id,
                  {from_part(line.part + "/list", part->list->unit_text(2), ""),
                   from_rule(rate.id, rate.text(), ""),
                   from_rule(rate.id, exchange.buffer_percent.text(), "%")},
                  "trade-practice 4.4: rate and buffer"});
}

void record_unit_price(const BillLine& line, const BillItem& item, const std::string& at,
                       bool exchange, Recorder& recorder) {
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
    entry.inputs = {exchange ? from_figure(at + "list", line.list->text(Money::places), "")
                             : from_part(line.part + "/list", line.list->unit_text(2), "")};
    recorder.add(std::move(entry));
}

/// `first`: the first line of the box.
void record_sundries(const std::vector<BillLine>& lines, std::size_t first, const RuleBook& rules,
                     const std::vector<const Rule*>& shares, Recorder& recorder) {
    const Rule& percent = rules.policy.sundries_percent;
    Money above;
    std::size_t at = first;
    for (; lines[at].role != "sundries"; ++at)
        if (lines[at].line_net) above += *lines[at].line_net;
    std::string left = "a";
    std::vector<BasisInput> inputs{from_rule(percent.id, percent.text(), percent.unit)};
    for (const Rule* share : shares) {
        left += " − " + input_letter(inputs.size());
        inputs.push_back(from_rule(share->id, share->text(), share->unit));
    }
    if (!shares.empty()) left = "max(0, " + left + ")";
    recorder.add({"/bill/" + steps_text(static_cast<std::int64_t>(at), 0) + "/line_net",
                  lines[at].line_net->text(Money::places), "",
                  above.text(Money::places) + " × " + left + " ÷ 100", percent.id,
                  std::move(inputs), percent.source});
}

/// Pieces of a small part, from what its row counts.
void record_pieces(const BillItem& item, const std::string& at, Recorder& recorder) {
    const SmallPartRow& row = *item.small;
    recorder.add({at + "quantity",
                  steps_text(item.quantity, 0),
                  "piece",
                  "ceil(" + steps_text(item.counted, 0) + " × a ÷ b)",
                  row.pieces.id,
                  {from_rule(row.pieces.id, row.pieces.text(), row.pieces.unit),
                   from_rule(row.per.id, row.per.text(), row.per.unit)},
                  row.pieces.source});
}

void record_line(const BillLine& line, const BillItem& item, std::size_t index,
                 const PriceBook& book, const ExchangeRate* exchange, Recorder& recorder) {
    const std::string at = "/bill/" + steps_text(static_cast<std::int64_t>(index), 0) + "/";
    if (item.small) record_pieces(item, at, recorder);
    if (!item.part || !line.unit_net) return;
    if (exchange) record_exchange(line, at, *exchange, book, recorder);
    record_unit_price(line, item, at, exchange != nullptr, recorder);
    recorder.add({at + "line_net",
                  line.line_net->text(Money::places),
                  "",
                  "a × b",
                  "price_policy/line",
                  {from_figure(at + "quantity", steps_text(line.quantity, 0), line.unit),
                   from_figure(at + "unit_net", line.unit_net->text(Money::places), "")},
                  "trade-practice 4.1: the line rounded once"});
}

} // namespace

void record_bill(const std::vector<BillLine>& lines, const std::vector<BoxBill>& boxes,
                 const PriceBook& book, const ExchangeRate* exchange, const RuleBook& rules,
                 Recorder& recorder) {
    for (const BoxBill& box : boxes) {
        std::size_t first = 0;
        while (lines[first].box != box.box->name) ++first;
        for (std::size_t i = 0; i < box.items->size(); ++i)
            record_line(lines[first + i], (*box.items)[i], first + i, book, exchange, recorder);
        record_sundries(lines, first, rules, box.shares, recorder);
    }
}

Money material_of(const std::vector<BillLine>& lines) {
    Money sum;
    for (const BillLine& line : lines)
        if (line.line_all) sum += *line.line_all;
    return sum;
}

} // namespace backplate
