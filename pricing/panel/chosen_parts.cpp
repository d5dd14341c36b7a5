#include "pricing/panel/chosen_parts.h"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include "pricing/panel/box_facts.h"
#include "pricing/panel/mains.h"
#include "pricing/panel/supply_groups.h"
#include "pricing/request/check_request.h"

namespace backplate {
namespace {

/// Kinds that the engine chooses from by itself.
constexpr auto chosen_kinds = std::array<std::string_view, 20>{
    "backup", "controller", "cooling",   "duct",        "enclosure",   "feed",  "head",
    "heater", "incoming",   "interface", "main_switch", "module",      "plate", "protection",
    "rail",   "redundancy", "supply",    "terminal",    "transformer", "wire"};
constexpr auto platform_kinds =
    std::array<std::string_view, 4>{"controller", "feed", "head", "module"};

template <class List> bool holds(const List& list, std::string_view word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

std::set<std::string> signals_of(const Part& part) {
    std::set<std::string> signals;
    for (const ChannelGroup& group : part.groups)
        signals.insert(group.signals.begin(), group.signals.end());
    return signals;
}

/// Why `by` cannot do the job of `part`; empty where it can.
std::string misfit(const Part& part, const Part& by) {
    if (part.key == by.key) return "a part cannot replace itself";
    if (part.kind != by.kind)
        return by.key + " is of the kind " + by.kind + ", expected " + part.kind;
    if (holds(platform_kinds, part.kind) && part.platform != by.platform)
        return by.key + " belongs to the platform " + by.platform + ", expected " + part.platform;
    if (part.function != by.function && part.kind != "incoming")
        return by.key + " has the function '" + by.function + "', expected '" + part.function + "'";
    const std::set<std::string> can = signals_of(by);
    for (const std::string& signal : signals_of(part))
        if (!can.contains(signal)) return by.key + " serves no " + signal;
    return {};
}

/// Runs on the mains of the place, and opens its conductors where it is there for that.
bool serves_site(const Part& part, const Site& site, const RuleBook& rules) {
    if (!fits_mains(part, site)) return false;
    if (part.kind != "incoming" && part.kind != "main_switch") return true;
    const bool phases = direct_current(site) || part.phases == site.phases;
    return phases && part.poles.value_or(part.phases) >= poles_needed(site, rules);
}

/// What the choices say, read against the price book.
class ChoiceReader {
public:
    ChoiceReader(const PriceBook& book, const Box& box, const BidRequest& request)
        : book_(book), box_(box), request_(request) {}

    void read() {
        for (const KeptPart& kept : box_.choices.keep) read_kept(kept);
        for (const ReplacedPart& each : box_.choices.replace) read_replaced(each);
        if (platforms_.size() > 1)
            limits_.push_back("choices: parts of several platforms are kept or replace others, "
                              "expected those of one");
    }

    void prefer() {
        const auto& makers = box_.choices.prefer_makers;
        for (const Part& part : book_.parts())
            if (holds(makers, part.maker) && may_choose(part, box_, request_))
                preferred_jobs_.insert(job_of(part));
    }

    /// Of the job of a part that an approval is asked of: is there one that states it.
    void approve(const RuleBook& rules) {
        for (const ApprovalRow& row : rules.approval_parts) {
            if (!row.pass_over || !holds(box_.site.approvals, row.approval)) continue;
            approvals_.push_back({&row, {}});
            for (const Part& part : book_.parts())
                if (holds(row.kinds, part.kind) && part.states_approval(row.approval) &&
                    may_choose(part, box_, request_) && serves_site(part, box_.site, rules))
                    approvals_.back().second.insert(job_of(part));
        }
    }

    bool open(const Part& part) const {
        const Choices& choices = box_.choices;
        if (holds(named_, part.key)) return true;
        for (const auto& [row, jobs] : approvals_)
            if (holds(row->kinds, part.kind) && !part.states_approval(row->approval) &&
                jobs.contains(job_of(part)))
                return false;
        if (choices.in_stock_only && part.stock.value_or(0) <= 0) return false;
        if (part.kind == "controller" && !platforms_.empty() && !platforms_.contains(part.platform))
            return false;
        const std::string job = job_of(part);
        if (taken_jobs_.contains(job)) return false;
        return !preferred_jobs_.contains(job) || holds(choices.prefer_makers, part.maker);
    }

    std::vector<std::string> take_limits() { return std::move(limits_); }

private:
    /// The part of the price book; null, and said why, where it cannot be chosen.
    const Part* choosable(const std::string& key, const std::string& choice) {
        const Part* part = book_.find(key);
        std::string why;
        if (!part) {
            std::vector<std::string> keys;
            for (const Part& each : book_.parts()) keys.push_back(each.key);
            const std::string near = nearest_word(key, keys);
            why = " is not in the price book" + (near.empty() ? "" : "; nearest: " + near);
        } else if (!holds(chosen_kinds, part->kind)) {
            why = " is of the kind " + part->kind +
                  ", which the engine does not choose; name it under equipment";
        } else if (!may_choose(*part, box_, request_)) {
            why = part->state == "discontinued"      ? " is discontinued"
                  : !part->net()                     ? " has no price"
                  : holds(box_.choices.exclude, key) ? " is excluded as well"
                  : needs_excluded(*part)            ? " needs an accessory that is excluded"
                                                     : " is not for the practice of the job";
        }
        if (why.empty()) return part;
        limits_.push_back(choice + ": " + key + why);
        return nullptr;
    }

    bool needs_excluded(const Part& part) const {
        return std::any_of(part.accessories.begin(), part.accessories.end(),
                           [&](const Accessory& accessory) {
                               return holds(box_.choices.exclude, accessory.part);
                           });
    }

    void take(const Part& part) {
        named_.push_back(part.key);
        if (holds(platform_kinds, part.kind)) platforms_.insert(part.platform);
    }

    void read_kept(const KeptPart& kept) {
        const std::string choice = "choices, keep";
        const Part* part = choosable(kept.part, choice);
        if (!part) return;
        take(*part);
        if (part->kind == "module") return;
        taken_jobs_.insert(job_of(*part));
        if (kept.quantity != 1)
            limits_.push_back(choice + ": " + kept.part + " is of the kind " + part->kind +
                              ", of which the engine counts the pieces; expected quantity 1");
    }

    void read_replaced(const ReplacedPart& each) {
        const std::string choice = "choices, replace " + each.part + " by " + each.by;
        const Part* part = book_.find(each.part);
        if (!part) {
            limits_.push_back(choice + ": " + each.part + " is not in the price book");
            return;
        }
        const Part* by = choosable(each.by, choice);
        if (!by) return;
        if (const std::string why = misfit(*part, *by); !why.empty()) {
            limits_.push_back(choice + ": " + why);
            return;
        }
        take(*by);
        taken_jobs_.insert(job_of(*part));
    }

    const PriceBook& book_;
    const Box& box_;
    const BidRequest& request_;
    std::vector<std::string> named_, limits_;
    std::set<std::string> platforms_, taken_jobs_, preferred_jobs_;
    std::vector<std::pair<const ApprovalRow*, std::set<std::string>>> approvals_;
};

} // namespace

std::string job_of(const Part& part) {
    if (part.kind == "module") {
        std::string job = "module|" + part.platform;
        for (const std::string& signal : signals_of(part)) job += "|" + signal;
        return job;
    }
    if (part.kind == "head" || part.kind == "feed") return part.kind + "|" + part.platform;
    if (part.kind == "cooling") return part.kind + "|" + part.stage;
    if (part.kind == "supply" || part.kind == "transformer")
        return part.kind + (part.output_v ? "|" + number_text(*part.output_v) : std::string());
    if (part.kind == "protection" && part.function == control_fuse)
        return part.kind + "|" + part.function + "|" + number_text(part.rated_a.value_or(0));
    constexpr auto by_function = std::array<std::string_view, 8>{
        "accessory", "controller", "device", "door", "interface", "labels", "terminal", "wire"};
    return holds(by_function, part.kind) ? part.kind + "|" + part.function : part.kind;
}

std::vector<const Part*> stand_ins(const Part& part, const PriceBook& book, const Box& box,
                                   const BidRequest& request) {
    std::vector<const Part*> found;
    if (!holds(chosen_kinds, part.kind)) return found;
    for (const Part& each : book.parts())
        if (misfit(part, each).empty() && may_choose(each, box, request)) found.push_back(&each);
    std::ranges::stable_sort(found, {}, [](const Part* each) { return *each->net(); });
    return found;
}

ChosenParts chosen_parts(const PriceBook& book, const Box& box, const BidRequest& request,
                         const RuleBook& rules, bool preferences) {
    const Choices& choices = box.choices;
    const bool prefer = preferences && !choices.prefer_makers.empty();
    if (choices.keep.empty() && choices.replace.empty() && !choices.in_stock_only && !prefer &&
        box.site.approvals.empty())
        return {book, {}};
    ChoiceReader reader(book, box, request);
    reader.read();
    reader.approve(rules);
    if (prefer) reader.prefer();
    ChosenParts chosen{book.narrowed([&](const Part& part) { return reader.open(part); }), {}};
    chosen.limits = reader.take_limits();
    return chosen;
}

} // namespace backplate
