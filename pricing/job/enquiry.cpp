#include "pricing/job/enquiry.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "pricing/cost/bill.h"

namespace backplate {
namespace {

bool is_article(const BillLine& line) {
    return line.charge.empty() && line.role != "sundries" && line.role != "free_issue" &&
           line.role != "subcontract";
}

/// Why the price of the line does not hold on the day; empty where it does.
std::string doubt_of(const BillLine& line, Date day, const RuleBook& rules) {
    if (!line.unit_net) return "no price";
    if (line.allowance) return "price by hand, no offer";
    if (line.valid_until && *line.valid_until < day) return "ended " + line.valid_until->text();
    const FindingRow* old = rules.find_finding("PRICE_OLD");
    if (!line.price_date || !old || !old->limit) return {};
    const bool aged = day.days - line.price_date->days > old->limit->number();
    return aged ? "of " + line.price_date->text() : "";
}

int boxes_of(const Estimate& estimate, const std::string& name) {
    for (const BoxResult& box : estimate.boxes)
        if (box.name == name) return box.quantity;
    return 1;
}

} // namespace

std::vector<EnquiryLine> enquiry_lines(const Estimate& estimate, const PriceBook& book,
                                       const RuleBook& rules) {
    std::map<std::tuple<std::string, std::string, std::string>, EnquiryLine> found;
    for (const BillLine& line : estimate.bill) {
        const std::string doubt = doubt_of(line, estimate.request.date, rules);
        if (!is_article(line) || doubt.empty()) continue;
        EnquiryLine& asked = found[{line.maker, line.part, line.description}];
        asked.maker = line.maker;
        asked.part = line.part;
        asked.description = line.description;
        asked.unit = line.unit;
        asked.reason = doubt;
        asked.needed += line.quantity * boxes_of(estimate, line.box);
        asked.to_buy = asked.needed;
    }
    std::vector<EnquiryLine> lines;
    for (auto& [name, line] : found) {
        if (const Part* part = line.part.empty() ? nullptr : book.find(line.part)) {
            line.to_buy = pieces_to_buy(*part, line.needed);
            line.pack = std::max(1, part->pack);
            line.minimum_order = std::max(1, part->minimum_order);
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace backplate
