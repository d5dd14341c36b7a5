#include <iostream>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "app/command_line/commands.h"
#include "app/command_line/price_steps_report.h"
#include "app/request_input.h"
#include "catalog/exchange/request_json.h"
#include "pricing/job/alternatives.h"
#include "pricing/request/options.h"
#include "pricing/values/document_units.h"
#include "pricing/values/faults.h"
#include "reports/alternatives_json.h"
#include "reports/wording.h"

namespace backplate {
namespace {

/// "+1,240.00" or "-35.00".
std::string with_sign(const Money& amount, int digits) {
    return (amount < Money() ? "" : "+") + amount.text(digits);
}

void add_figure(std::string& text, const std::string& figure) {
    text += (text.empty() ? "" : ", ") + figure;
}

/// "250 mm narrower, 3.2 h less work, 12 W cooler": what differs beside the price.
std::string differences(const Difference& difference, bool inch) {
    std::string text;
    const auto size = [&](const std::optional<double>& mm, const char* more, const char* less) {
        if (mm && *mm != 0)
            add_figure(text, length_text(std::abs(*mm), inch) + " " + (*mm > 0 ? more : less));
    };
    size(difference.width_mm, "wider", "narrower");
    size(difference.height_mm, "higher", "lower");
    if (difference.inside_w && std::abs(*difference.inside_w) >= 0.05)
        add_figure(text, number_text(std::abs(*difference.inside_w), 1) + " W heat " +
                             (*difference.inside_w > 0 ? "more" : "less"));
    if (difference.hours != Hours())
        add_figure(text, number_text(std::abs(difference.hours.number()), 1) + " h " +
                             (difference.hours > Hours() ? "more" : "less"));
    if (difference.lead_days && *difference.lead_days != 0)
        add_figure(text, std::to_string(std::abs(*difference.lead_days)) + " days " +
                             (*difference.lead_days > 0 ? "later" : "sooner"));
    if (difference.part_kinds != 0)
        add_figure(text, std::to_string(std::abs(difference.part_kinds)) +
                             (std::abs(difference.part_kinds) == 1 ? " kind" : " kinds") +
                             " of parts " + (difference.part_kinds > 0 ? "more" : "fewer"));
    return text.empty() ? "no other difference" : text;
}

void print_found(const Alternatives& found, const std::string& currency, int digits) {
    for (const Alternative& each : found.alternatives) {
        std::string figures;
        if (each.difference) figures = differences(*each.difference, found.base.request.inch);
        if (!each.proven_cheapest)
            figures += std::string(figures.empty() ? "" : "; ") + "not proven the cheapest";
        std::cout << fmt::format(
            "\n{}: {} {}{}\n  {}\n", each.title, each.price.text(digits), currency,
            each.difference ? " (" + with_sign(each.difference->price, digits) + ")" : "",
            each.reason);
        if (!figures.empty()) std::cout << "  " << figures << "\n";
    }
    if (!found.dropped.empty()) std::cout << "\nNot offered\n";
    for (const DroppedAlternative& each : found.dropped)
        std::cout << fmt::format("  {}: {}{}\n", each.title, each.reason,
                                 each.same_as.empty() ? "" : " (" + each.same_as + ")");
}

void print(const Alternatives& found, const FoundSteps& steps) {
    const PriceResult& price = *found.base.price;
    std::set<std::string> platforms;
    for (const SystemResult& system : found.base.systems) platforms.insert(system.platform);
    std::cout << fmt::format(
        "Base: {} {}, platform {}{}\n", price.price.text(price.digits), price.currency,
        platforms.empty() ? "none" : fmt::format("{}", fmt::join(platforms, " and ")),
        found.base.demo_data ? " (demo data)" : "");
    print_found(found, price.currency, price.digits);
    std::cout << price_steps_report(steps, price);
    std::cout << "\nEach is the cheapest whole panel with this price book and these rules after "
                 "one change; --take N prints the request with the change of the Nth.\n";
}

/// What binds, and how boxes parted over several would do.
void print_limits(const Alternatives& found, const RuleBook& rules) {
    const Estimate& base = found.base;
    std::cout << "Nothing builds it: " << limits_of(base) << "\n";
    for (const Finding& finding : base.findings)
        if (finding.code == "LIMITS_TOGETHER") std::cout << finding_text(finding, rules) << "\n";
    const std::string& currency = base.request.currency;
    print_found(found, currency + (base.demo_data ? " (demo data)" : ""),
                rules.digits_of(currency));
    if (!found.alternatives.empty())
        std::cout << "\nEach is a whole job with this price book and these rules; --take N prints "
                     "the request with the change of the Nth.\n";
}

/// The request as it was sent, changed. Throws BadInput where there are fewer.
std::string taken(const Alternatives& found, int number) {
    const auto count = found.alternatives.size();
    if (static_cast<std::size_t>(number) > count)
        throw BadInput(fmt::format("--take {}: there are {} alternatives{}", number, count,
                                   count == 0 ? "" : fmt::format(", expected 1 to {}", count)));
    Node request = changeable(found.base.request);
    if (const Node* options = at_pointer(found.base.request.sent, "/commercial/options"))
        request.find("commercial")->member("options") = *options;
    apply_change(request, found.alternatives[static_cast<std::size_t>(number) - 1].taken_by);
    return json_text(request);
}

} // namespace

int run_alternatives(const AlternativesArguments& arguments, const CommonArguments& common) {
    const Inputs inputs = load_inputs(common.library);
    const BidRequest request = read_request(arguments.request, inputs);
    Work work;
    const Alternatives found = find_alternatives(request, *inputs.prices, *inputs.rules,
                                                 static_cast<std::size_t>(arguments.most), work);
    if (arguments.take > 0) {
        std::cout << taken(found, arguments.take);
        return done;
    }
    const FoundSteps steps = price_steps(found.base, *inputs.prices, *inputs.rules, work);
    if (common.json)
        std::cout << alternatives_json(found, steps, *inputs.rules);
    else if (found.base.buildable)
        print(found, steps);
    else
        print_limits(found, *inputs.rules);
    return found.base.buildable ? done : not_as_asked;
}

} // namespace backplate
