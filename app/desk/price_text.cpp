#include "app/desk/price_text.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "pricing/job/difference.h"
#include "reports/number_format.h"
#include "reports/wording.h"

namespace backplate {
namespace {

std::string with_sign(const std::string& text, bool more) { return (more ? "+" : "") + text; }

std::string signed_money(Money amount, int digits, const FigureText& text) {
    return with_sign(text.money(amount, digits), amount > Money());
}

bool is_whole(Money amount) { return amount.text(4).ends_with(".0000"); }

std::string signed_number(double value, int places, const FigureText& text) {
    const double least = std::pow(10.0, -places) / 2;
    if (std::abs(value) < least) return "0";
    return with_sign(text.number(value, places), value > 0);
}

std::string counted(long count, const std::string& what) {
    return std::to_string(count) + " " + what + (count == 1 || count == -1 ? "" : "s");
}

std::map<std::string, std::pair<Hours, Money>> by_class(const Estimate& estimate) {
    std::map<std::string, std::pair<Hours, Money>> sums;
    for (const LabourLine& line : estimate.labour) {
        auto& sum = sums[line.work_class];
        sum.first += line.hours;
        sum.second += line.cost;
    }
    return sums;
}

int digits_of(const Estimate& estimate) { return estimate.price ? estimate.price->digits : 2; }

std::string housing_of(const Estimate& estimate, const FigureText& text) {
    std::string all;
    for (const BoxResult& box : estimate.boxes) all += enclosure_figure(box, text) + "; ";
    return all;
}

std::map<std::string, int> modules_of(const Estimate& estimate) {
    std::map<std::string, int> modules;
    for (const BoxResult& box : estimate.boxes)
        for (const ModuleResult& module : box.modules)
            modules[module.part] += module.quantity * box.quantity;
    return modules;
}

/// "+1 QS-401, -2 QS-403": at most three, then how many more.
std::string module_changes(const Estimate& before, const Estimate& now) {
    const auto old = modules_of(before);
    auto change = modules_of(now);
    for (const auto& [part, quantity] : old) change[part] -= quantity;
    std::erase_if(change, [](const auto& each) { return each.second == 0; });
    std::string text;
    std::size_t said = 0;
    for (const auto& [part, quantity] : change) {
        if (++said > 3) continue;
        text += (text.empty() ? "" : ", ") + with_sign(std::to_string(quantity), quantity > 0) +
                " " + part;
    }
    return said > 3 ? text + " and " + std::to_string(said - 3) + " more" : text;
}

std::string sentence(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

void say(std::string& text, const std::string& words) {
    if (!words.empty()) text += (text.empty() ? "" : " · ") + words;
}

} // namespace

std::vector<PriceShare> price_shares(const Estimate& estimate) {
    if (!estimate.price) return {};
    const PriceResult& price = *estimate.price;
    std::vector<PriceShare> shares{{"Material", price.material + price.freight, {}},
                                   {"Labour", price.labour, {}},
                                   {"Contingency", price.contingency, {}},
                                   {"Overhead", price.overhead, {}},
                                   {"Margin", price.margin, {}}};
    for (const auto& [work_class, sum] : by_class(estimate))
        shares[1].cuts.emplace_back(plain_words(work_class), sum.second);
    std::ranges::stable_sort(shares[1].cuts,
                             [](const auto& a, const auto& b) { return a.second > b.second; });
    return shares;
}

std::string even_words(const PriceResult& price, const FigureText& text) {
    return "As likely above as below: " + text.money(price.p50, price.digits);
}

std::string enough_words(const PriceResult& price, const FigureText& text) {
    return "Four times in five enough: " + text.money(price.p80, price.digits);
}

TextRows class_rows(const Estimate& estimate, const FigureText& text) {
    TextRows rows;
    Hours hours;
    Money cost;
    auto sums = by_class(estimate);
    std::vector<std::pair<std::string, std::pair<Hours, Money>>> sorted(sums.begin(), sums.end());
    std::ranges::stable_sort(
        sorted, [](const auto& a, const auto& b) { return a.second.first > b.second.first; });
    for (const auto& [work_class, sum] : sorted) {
        rows.push_back({plain_words(work_class), text.hours(sum.first),
                        text.money(sum.second, digits_of(estimate))});
        hours += sum.first;
        cost += sum.second;
    }
    if (!rows.empty())
        rows.push_back({"All", text.hours(hours), text.money(cost, digits_of(estimate))});
    return rows;
}

TextRows ratio_rows(const Estimate& estimate, const FigureText& text) {
    TextRows rows;
    for (const RatioResult& ratio : estimate.ratios) {
        const std::string unit = ratio.unit.empty() ? "" : " " + ratio.unit;
        const bool inside = ratio.value >= ratio.low && ratio.value <= ratio.high;
        rows.push_back(
            {plain_words(ratio.name), text.number(ratio.value, ratio.digits) + unit,
             text.number(ratio.low, ratio.digits) + " – " + text.number(ratio.high, ratio.digits),
             inside ? "usual" : "✗ outside"});
    }
    return rows;
}

bool no_real_difference(const Alternative& each, const PriceResult& base) {
    if (!each.difference) return false;
    const Money difference = each.difference->price;
    const Money size = difference < Money() ? -difference : difference;
    return size < base.p80 - base.p50;
}

std::vector<std::string> difference_cells(const Difference& other, int digits,
                                          const FigureText& text) {
    const bool inch = text.inch();
    const double hours = other.hours.number();
    return {signed_money(other.price, is_whole(other.price) ? 0 : digits, text),
            other.width_mm
                ? signed_number(inch ? *other.width_mm / 25.4 : *other.width_mm, inch ? 1 : 0, text)
                : "–",
            other.inside_w ? signed_number(*other.inside_w, 0, text) : "–",
            signed_number(hours, std::abs(hours) < 9.95 ? 1 : 0, text),
            other.lead_days ? signed_number(*other.lead_days, 0, text) : "–"};
}

/// Where there is no base to differ from.
std::string whole_price(const Alternative& each, const FigureText& text) {
    return text.money(each.price, is_whole(each.price) ? 0 : each.digits);
}

TextRows alternative_rows(const Alternatives& found, const FigureText& text, bool numbered) {
    TextRows rows;
    for (const Alternative& each : found.alternatives) {
        std::vector<std::string> cells{whole_price(each, text), "", "", "", ""};
        if (each.difference) cells = difference_cells(*each.difference, each.digits, text);
        if (found.base.price && no_real_difference(each, *found.base.price))
            cells.front() = "≈ " + cells.front();
        cells.insert(cells.begin(), {numbered ? std::to_string(rows.size() + 1) : "", each.title});
        rows.push_back(std::move(cells));
    }
    return rows;
}

std::string alternative_words(const Alternative& each, const Alternatives& found,
                              const FigureText& text) {
    std::string words = each.title + ": " + text.money(each.price, each.digits) + " " +
                        found.base.request.currency + ". " + sentence(each.reason);
    if (found.base.price && no_real_difference(each, *found.base.price))
        words += ". No real difference in price";
    if (!each.proven_cheapest) words += ". Not proven the cheapest";
    return words;
}

std::string none_chosen_words(const Alternatives& found) {
    if (found.base.buildable)
        return found.alternatives.empty()
                   ? "None of those tried is better in anything"
                   : "≈ no real difference in price; Alt and the number takes it";
    return found.alternatives.empty() ? "None: parting boxes over several does not help"
                                      : "Prices of the whole job; Alt and the number takes it";
}

std::string change_words(const Estimate& before, const Estimate& now, const FigureText& text) {
    std::string words;
    if (before.price && now.price && before.price->currency == now.price->currency) {
        const Money change = now.price->price - before.price->price;
        const int digits = is_whole(change) ? 0 : now.price->digits;
        if (!change.is_zero()) say(words, signed_money(change, digits, text));
        const double hours = (labour_hours(now) - labour_hours(before)).number();
        if (std::abs(hours) >= 0.05) say(words, signed_number(hours, 1, text) + " h");
    }
    if (before.buildable && now.buildable) {
        const double heat = difference_of(before, now).inside_w.value_or(0);
        if (std::abs(heat) >= 0.5) say(words, signed_number(heat, 0, text) + " W");
    }
    if (before.buildable != now.buildable)
        say(words, now.buildable ? "can be built now" : "cannot be built any more");
    say(words, module_changes(before, now));
    const std::string housing = housing_of(now, text);
    if (housing != housing_of(before, text) && !now.boxes.empty())
        say(words, "now " + enclosure_figure(now.boxes.front(), text));
    return words;
}

SendState send_state(const DeskState& state) {
    const Estimate* estimate = state.estimate();
    if (!state.answer) return {false, "not priced yet", ""};
    if (!state.answer->faults.empty())
        return {false,
                "Not to be sent: " +
                    counted(static_cast<long>(state.answer->faults.size()), "fault"),
                state.answer->faults.front().where};
    if (!estimate || !state.answer->error.empty() || !estimate->price)
        return {false, "Not to be sent: no price", ""};
    long stops = 0;
    const Finding* first = nullptr;
    for (const Finding& finding : estimate->findings)
        if (finding.severity == Severity::stop && ++stops == 1) first = &finding;
    if (!first) return {true, "May be sent", ""};
    return {false,
            "Not to be sent: " + finding_title(*first, *state.inputs->rules) +
                (stops > 1 ? " and " + std::to_string(stops - 1) + " more" : ""),
            first->where};
}

std::string days_left(const DeskState& state) {
    const Estimate* estimate = state.estimate();
    if (!estimate || !estimate->request.due) return {};
    const int days = estimate->request.due->days - state.today.days;
    if (days == 0) return "due today";
    return days > 0 ? counted(days, "day") + " left" : counted(-days, "day") + " late";
}

} // namespace backplate
