#include "pricing/cost/compare.h"

#include <algorithm>
#include <map>
#include <stdexcept>
#include <utility>

namespace backplate {
namespace {

using Key = std::pair<std::string, std::string>;
using Lines = std::vector<PricedLine>;

Money sum_of(const Lines& lines) {
    Money sum;
    for (const PricedLine& line : lines) sum += line.amount;
    return sum;
}

/// The lines of one box and item in their order, as places.
std::map<Key, std::vector<std::size_t>> by_key(const Lines& lines) {
    std::map<Key, std::vector<std::size_t>> places;
    for (std::size_t i = 0; i < lines.size(); ++i)
        places[{lines[i].box, lines[i].item}].push_back(i);
    return places;
}

/// Which change it is; nothing where the line stays.
std::optional<LineChange> change_of(const PricedLine& before, const PricedLine& after) {
    const bool same_unit = before.unit == after.unit;
    if (before.quantity == after.quantity) {
        if (same_unit && before.amount == after.amount) return std::nullopt;
        return LineChange::price;
    }
    return same_unit && before.unit ? LineChange::quantity : LineChange::quantity_and_price;
}

Money share_of_quantity(const PricedLine& before, const PricedLine& after, int digits) {
    if (before.quantity == 0) return {};
    return before.amount.ratio(after.quantity - before.quantity, before.quantity).rounded(digits);
}

std::optional<ComparedLine> compared(const PricedLine& before, const PricedLine& after,
                                     int digits) {
    const auto change = change_of(before, after);
    if (!change) return std::nullopt;
    ComparedLine line{*change,         after.box,      after.item,  after.text,
                      before.quantity, after.quantity, before.unit, after.unit,
                      before.amount,   after.amount,   {},          {},
                      after.part};
    if (*change == LineChange::quantity) line.by_quantity = line.difference();
    if (*change == LineChange::quantity_and_price)
        line.by_quantity = share_of_quantity(before, after, digits);
    line.by_price = line.difference() - line.by_quantity;
    return line;
}

ComparedLine gone(const PricedLine& line) {
    return {LineChange::gone, line.box,     line.item,   line.text, line.quantity, 0,
            line.unit,        std::nullopt, line.amount, {},        -line.amount,  {},
            line.part};
}

ComparedLine added(const PricedLine& line) {
    return {LineChange::added, line.box, line.item,   line.text,   0,  line.quantity, std::nullopt,
            line.unit,         {},       line.amount, line.amount, {}, line.part};
}

std::vector<ComparedLine> compared_lines(const Lines& before, const Lines& after, int digits) {
    auto left = by_key(before);
    std::vector<bool> met(before.size());
    std::vector<ComparedLine> lines;
    for (const PricedLine& line : after) {
        const auto found = left.find({line.box, line.item});
        if (found == left.end() || found->second.empty()) {
            lines.push_back(added(line));
            continue;
        }
        const std::size_t place = found->second.front();
        found->second.erase(found->second.begin());
        met[place] = true;
        if (auto changed = compared(before[place], line, digits))
            lines.push_back(*std::move(changed));
    }
    for (std::size_t i = 0; i < before.size(); ++i)
        if (!met[i]) lines.push_back(gone(before[i]));
    return lines;
}

} // namespace

bool adds_up(const PricedJob& job) {
    return sum_of(job.bill) + sum_of(job.labour) + job.freight + job.contingency + job.overhead +
               job.margin - job.concession + job.rounding ==
           job.price;
}

const char* change_word(LineChange change) {
    switch (change) {
    case LineChange::gone: return "gone";
    case LineChange::added: return "new";
    case LineChange::quantity: return "quantity";
    case LineChange::price: return "price";
    case LineChange::quantity_and_price: return "quantity and price";
    }
    return "";
}

Money Comparison::sum() const {
    Money sum;
    for (const auto* lines : {&bill, &labour})
        for (const ComparedLine& line : *lines) sum += line.difference();
    for (const ComparedStep& step : chain) sum += step.difference();
    return sum;
}

Comparison compare(const PricedJob& before, const PricedJob& after) {
    if (before.currency != after.currency)
        throw std::invalid_argument("jobs in " + before.currency + " and " + after.currency +
                                    " cannot be compared");
    const int digits = std::max(before.digits, after.digits);
    Comparison comparison;
    comparison.bill = compared_lines(before.bill, after.bill, digits);
    comparison.labour = compared_lines(before.labour, after.labour, digits);
    comparison.chain = {{"freight", before.freight, after.freight},
                        {"contingency", before.contingency, after.contingency},
                        {"overhead", before.overhead, after.overhead},
                        {"margin", before.margin, after.margin},
                        {"concession", -before.concession, -after.concession},
                        {"rounding", before.rounding, after.rounding}};
    comparison.before = before.price;
    comparison.after = after.price;
    return comparison;
}

} // namespace backplate
