#include "pricing/job/alternatives.h"

#include <algorithm>
#include <set>

#include "pricing/request/check_request.h"
#include "pricing/request/options.h"

namespace backplate {
namespace {

/// A change of the request that may lead to another panel.
struct Trial {
    std::string title, reason;
    Node change;
    bool own_platform = false; ///< stands even where it is better in nothing
};

Node texts(const std::vector<std::string>& words) {
    Node list = Node::make_list();
    for (const std::string& word : words) list.items.push_back(Node::make_text(word));
    return list;
}

/// { "boxes": { NAME: { "choices": { key: value of the box } } } } for every box of which `value`
/// gives one.
template <class ValueOf>
Node change_of_boxes(const BidRequest& request, const char* key, const ValueOf& value_of) {
    Node change = Node::make_object();
    Node boxes = Node::make_object();
    for (const Box& box : request.boxes) {
        const std::optional<Node> value = value_of(box);
        if (!value) continue;
        Node choices = Node::make_object();
        choices.member(key) = *value;
        Node named = Node::make_object();
        named.member("choices") = std::move(choices);
        boxes.member(box.name) = std::move(named);
    }
    change.member("boxes") = std::move(boxes);
    return change;
}

Node choice_change(const BidRequest& request, const char* key, const Node& value) {
    return change_of_boxes(request, key, [&](const Box&) { return std::optional(value); });
}

std::string described(const PriceBook& book, const std::string& part) {
    const Part* found = book.find(part);
    return found && !found->description.empty() ? part + " (" + found->description + ")" : part;
}

/// Every platform that a box with a controller may have and its system does not; its boxes follow.
void try_platforms(const Estimate& base, const PriceBook& book, std::vector<Trial>& trials) {
    const BidRequest& request = base.request;
    std::set<std::string> taken, platforms;
    for (const SystemResult& system : base.systems) taken.insert(system.platform);
    for (const Box& box : request.boxes) {
        if (box.controlled_by != ControlledBy::own) continue;
        const auto& allowed = box.choices.platforms;
        for (const Part* controller : book.of_kind("controller"))
            if (allowed.empty() ||
                std::find(allowed.begin(), allowed.end(), controller->platform) != allowed.end())
                platforms.insert(controller->platform);
    }
    for (const std::string& platform : platforms) {
        if (taken.size() == 1 && taken.contains(platform)) continue;
        trials.push_back({"Platform " + platform, "cheapest whole panel of this platform",
                          change_of_boxes(request, "platforms",
                                          [&](const Box& box) -> std::optional<Node> {
                                              if (box.controlled_by == ControlledBy::none)
                                                  return std::nullopt;
                                              return texts({platform});
                                          }),
                          true});
    }
}

/// The base without one of its parts, the other exclusions of each box kept.
Trial without(const Estimate& base, const PriceBook& book, const std::string& part,
              const char* reason) {
    return {"Without " + described(book, part), reason,
            change_of_boxes(base.request, "exclude", [&](const Box& box) {
                std::vector<std::string> excluded = box.choices.exclude;
                excluded.push_back(part);
                return std::optional(texts(excluded));
            })};
}

void try_mixes(const Estimate& base, const PriceBook& book, std::vector<Trial>& trials) {
    std::set<std::string> parts;
    for (const BoxResult& box : base.boxes)
        for (const ModuleResult& module : box.modules)
            if (module.role == "module" || module.role == "controller") parts.insert(module.part);
    for (const std::string& part : parts)
        trials.push_back(without(base, book, part, "next cheapest mix of modules"));
}

/// Sealed boxes instead of cooled ones, and others than the enclosures chosen.
void try_boxes(const Estimate& base, const PriceBook& book, std::vector<Trial>& trials) {
    const bool cooled = std::any_of(base.boxes.begin(), base.boxes.end(), [](const BoxResult& box) {
        return box.heat.stage != "sealed" && !box.heat.stage.empty();
    });
    if (cooled)
        trials.push_back({"Sealed box", "heat leaves through the walls alone",
                          choice_change(base.request, "cooling", Node::make_text("sealed"))});
    std::set<std::string> parts;
    for (std::size_t i = 0; i < base.boxes.size(); ++i)
        if (base.request.boxes[i].choices.enclosure == EnclosureChoice::choose)
            for (const EnclosureResult& enclosure : base.boxes[i].enclosures)
                if (!enclosure.part.empty()) parts.insert(enclosure.part);
    for (const std::string& part : parts)
        trials.push_back(without(base, book, part, "next cheapest enclosure"));
}

std::vector<Trial> trials_of(const Estimate& base, const PriceBook& book) {
    std::vector<Trial> trials;
    try_platforms(base, book, trials);
    try_mixes(base, book, trials);
    try_boxes(base, book, trials);
    const auto from_store = [](const Box& box) { return box.choices.in_stock_only; };
    const auto& boxes = base.request.boxes;
    if (!std::all_of(boxes.begin(), boxes.end(), from_store))
        trials.push_back({"Own store", "parts that the shop has in stock",
                          choice_change(base.request, "in_stock_only", Node::make_flag(true))});
    return trials;
}

bool same_bill(const std::vector<BillLine>& a, const std::vector<BillLine>& b) {
    return std::equal(
        a.begin(), a.end(), b.begin(), b.end(), [](const BillLine& one, const BillLine& other) {
            return one.box == other.box && one.part == other.part &&
                   one.description == other.description && one.quantity == other.quantity;
        });
}

/// Costs no more, or is smaller, cooler, quicker to get, less work or of fewer kinds of parts.
bool better_in_something(const Difference& difference) {
    const auto less = [](const std::optional<double>& figure) { return figure && *figure < 0; };
    return difference.price <= Money() || less(difference.width_mm) || less(difference.height_mm) ||
           less(difference.inside_w) || (difference.lead_days && *difference.lead_days < 0) ||
           difference.hours < Hours() || difference.part_kinds < 0;
}

/// One trial after the other against the base and what was found before.
class Search {
public:
    Search(Alternatives& result, const PriceBook& book, const RuleBook& rules, Work& work)
        : result_(result), book_(book), rules_(rules), work_(work),
          request_(changeable(result.base.request)) {}

    void run(const Trial& trial) {
        Node changed = request_;
        apply_change(changed, trial.change);
        const CheckedRequest checked = check_request(changed, rules_, result_.base.request.date);
        if (!checked.request)
            return drop(trial, "not a sound request: " + checked.faults.front().text);
        Work own{work_.stop, work_.budget, {}, {}};
        judge(trial, price_job(*checked.request, book_, rules_, own));
    }

private:
    void judge(const Trial& trial, Estimate other) {
        if (!other.buildable) return drop(trial, "cannot be built: " + limits_of(other));
        if (same_bill(other.bill, result_.base.bill)) return drop(trial, "is the base", "base");
        for (const Alternative& known : result_.alternatives)
            if (same_bill(other.bill, known.bill))
                return drop(trial, "is the same panel", known.title);
        const Difference difference = difference_of(result_.base, other);
        if (!trial.own_platform && !better_in_something(difference))
            return drop(trial, "costs " + difference.price.text(other.price->digits) + " " +
                                   other.price->currency + " more and is better in nothing");
        const bool proven =
            std::all_of(other.systems.begin(), other.systems.end(),
                        [](const SystemResult& system) { return system.proven_cheapest; });
        result_.alternatives.push_back({trial.title, trial.reason, trial.change, other.price->price,
                                        difference, std::move(other.boxes), proven,
                                        std::move(other.bill)});
    }

    void drop(const Trial& trial, std::string reason, std::string same_as = {}) {
        result_.dropped.push_back({trial.title, std::move(reason), std::move(same_as)});
    }

    Alternatives& result_;
    const PriceBook& book_;
    const RuleBook& rules_;
    Work& work_;
    Node request_;
};

} // namespace

Alternatives find_alternatives(const BidRequest& request, const PriceBook& book,
                               const RuleBook& rules, std::size_t most, Work& work) {
    Alternatives result;
    result.base = price_job(request, book, rules, work);
    if (!result.base.buildable) return result;
    Search search(result, book, rules, work);
    for (const Trial& trial : trials_of(result.base, book)) search.run(trial);
    auto& found = result.alternatives;
    std::stable_sort(found.begin(), found.end(), [](const Alternative& a, const Alternative& b) {
        return a.price != b.price ? a.price < b.price : a.title < b.title;
    });
    while (found.size() > most) {
        result.dropped.push_back({found.back().title, "dearer than the number asked", ""});
        found.pop_back();
    }
    return result;
}

} // namespace backplate
