#include "pricing/request/check_request.h"

#include <algorithm>
#include <charconv>
#include <string_view>

#include "pricing/request/assemblies.h"
#include "pricing/request/assumptions.h"
#include "pricing/request/check_values.h"
#include "pricing/request/contradictions.h"
#include "pricing/request/options.h"
#include "pricing/request/to_bid_request.h"

namespace backplate {
namespace {

std::string_view take_step(std::string_view& pointer) {
    pointer.remove_prefix(1);
    const auto step = pointer.substr(0, pointer.find('/'));
    pointer.remove_prefix(step.size());
    return step;
}

std::optional<std::size_t> place_in_list(std::string_view step) {
    std::size_t place = 0;
    const char* end = step.data() + step.size();
    const auto [stop, fault] = std::from_chars(step.data(), end, place);
    return fault == std::errc{} && stop == end ? std::optional(place) : std::nullopt;
}

/// Step by step, places in a list by number.
bool stands_before(const RequestFault& a, const RequestFault& b) {
    std::string_view left = a.where, right = b.where;
    while (!left.empty() && !right.empty()) {
        const auto left_step = take_step(left), right_step = take_step(right);
        if (left_step == right_step) continue;
        const auto left_place = place_in_list(left_step), right_place = place_in_list(right_step);
        if (left_place && right_place) return *left_place < *right_place;
        return left_step < right_step;
    }
    return left.empty() && !right.empty();
}

/// Prices are in the currency of the price policy; another one needs a rate.
void check_currency(const Node& sent, const RuleBook& rules, std::vector<RequestFault>& faults) {
    const Node* asked = at_pointer(sent, "/job/currency");
    const std::string& priced = rules.policy.currency;
    if (!asked || !asked->is(Node::Kind::text) || priced.empty()) return;
    if (asked->text != priced && !rules.find_exchange(asked->text))
        faults.push_back({"/job/currency", found_text(*asked) + " has no rate, expected " + priced +
                                               ", the currency of the prices, or a row in the "
                                               "table exchange_rates"});
}

/// Something of the spare was sent.
bool states_spare(const Node& sent) {
    const Node* spare = sent.find("spare");
    return spare && !spare->members.empty();
}

DefaultValues defaults_for(const Node& sent, const RuleBook& rules, Date today) {
    return DefaultValues(rules, follows_north_america(sent, rules), today);
}

} // namespace

std::vector<RequestFault> faults_as_sent(const Node& sent, const RuleBook& rules, Date today) {
    const DefaultValues defaults = defaults_for(sent, rules, today);
    const Words words(rules, sent);
    std::vector<RequestFault> faults;
    check_values(sent, request_keys(rules), defaults, words, faults);
    check_contradictions(sent, words, faults);
    check_assemblies(sent, rules, faults);
    check_currency(sent, rules, faults);
    std::stable_sort(faults.begin(), faults.end(), stands_before);
    return faults;
}

CheckedRequest check_request(const Node& sent, const RuleBook& rules, Date today) {
    CheckedRequest result;
    result.faults = faults_as_sent(sent, rules, today);
    if (!result.faults.empty()) return result;

    Node filled = sent;
    const DefaultValues defaults = defaults_for(sent, rules, today);
    const auto values = fill_defaults(filled, rules, defaults);
    auto assumptions = assumptions_of(filled, values, rules);
    result.request = to_bid_request(std::move(filled));
    add_assembly_points(*result.request, rules);
    result.request->sent = sent;
    result.request->assumptions = std::move(assumptions);
    result.request->spare.stated = states_spare(sent);
    add_options(*result.request, rules, result.faults);
    if (!result.faults.empty()) result.request.reset();
    return result;
}

} // namespace backplate
