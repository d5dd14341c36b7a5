#include "pricing/job/alternative_trials.h"

#include <algorithm>
#include <map>
#include <set>

#include "pricing/panel/box_facts.h"
#include "pricing/request/node_values.h"

namespace backplate {
namespace {

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

Trial without(const Estimate& base, const PriceBook& book, const std::string& part,
              const char* reason) {
    return {"Without " + described(book, part), reason, without_parts(base.request, {part})};
}

void try_mixes(const Estimate& base, const PriceBook& book, std::vector<Trial>& trials) {
    std::set<std::string> parts;
    for (const BoxResult& box : base.boxes)
        for (const ModuleResult& module : box.modules)
            if (module.role == "module" || module.role == "controller") parts.insert(module.part);
    for (const std::string& part : parts)
        trials.push_back(without(base, book, part, "next cheapest mix of modules"));
}

using Signals = std::set<std::string>;

/// Modules of a box: the signals that stand on them, and their channels that are taken.
std::map<std::string, std::pair<Signals, int>> uses_of(const BoxResult& box) {
    std::map<std::string, std::pair<Signals, int>> uses;
    for (const StationResult& station : box.stations)
        for (const PlaceResult& place : station.places)
            for (const ChannelResult& channel : place.channels)
                if (!channel.signal.empty()) {
                    uses[place.part].first.insert(channel.signal);
                    ++uses[place.part].second;
                }
    return uses;
}

/// Without modules whose signals another module of the box carries on more channels.
void try_fewer_kinds(const Estimate& base, std::vector<Trial>& trials) {
    std::set<std::string> minor;
    for (const BoxResult& box : base.boxes) {
        const auto uses = uses_of(box);
        for (const auto& [part, own] : uses)
            for (const auto& [other, its] : uses)
                if (its.second > own.second && std::includes(its.first.begin(), its.first.end(),
                                                             own.first.begin(), own.first.end()))
                    minor.insert(part);
    }
    if (minor.empty()) return;
    const std::vector<std::string> parts(minor.begin(), minor.end());
    trials.push_back({"Fewer kinds of modules", "each signal on the module that carries most of it",
                      without_parts(base.request, parts)});
}

/// What a choice by hand costs or saves: the same job without it.
void try_lifted_choices(const Estimate& base, std::vector<Trial>& trials) {
    const auto lift = [&](const char* key, const char* title, const char* reason, const Node& free,
                          const auto& chosen) {
        const auto& boxes = base.request.boxes;
        if (std::none_of(boxes.begin(), boxes.end(), chosen)) return;
        trials.push_back({title, reason,
                          change_of_boxes(base.request, key,
                                          [&](const Box& box) -> std::optional<Node> {
                                              if (!chosen(box)) return std::nullopt;
                                              return free;
                                          }),
                          true});
    };
    const Node none = Node::make_list();
    lift("keep", "Nothing kept", "without the parts kept by hand", none,
         [](const Box& box) { return !box.choices.keep.empty(); });
    lift("exclude", "Nothing left out", "with the parts left out by hand", none,
         [](const Box& box) { return !box.choices.exclude.empty(); });
    lift("prefer_makers", "Any maker", "without the preference for makers", none,
         [](const Box& box) { return !box.choices.prefer_makers.empty(); });
    lift("in_stock_only", "Any stock", "parts that the shop does not have in stock too",
         Node::make_flag(false), [](const Box& box) { return box.choices.in_stock_only; });
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

/// Millimetres of an enclosure, or of what a site allows.
struct Size {
    double width = 0, height = 0, depth = 0;
    double volume() const { return width * height * depth; }
    friend auto operator<=>(const Size&, const Size&) = default;
};

/// { "boxes": { BOX: { part: { key: value } } } }
Node box_change(const std::string& box, const char* part, const char* key, Node value) {
    Node change = Node::make_object(), boxes = Node::make_object(), named = Node::make_object(),
         changed = Node::make_object();
    changed.member(key) = std::move(value);
    named.member(part) = std::move(changed);
    boxes.member(box) = std::move(named);
    change.member("boxes") = std::move(boxes);
    return change;
}

Node site_change(const std::string& box, const Size& size) {
    Node most = Node::make_object();
    most.member("width") = Node::make_number(number_text(size.width));
    most.member("height") = Node::make_number(number_text(size.height));
    most.member("depth") = Node::make_number(number_text(size.depth));
    return box_change(box, "site", "max_mm", std::move(most));
}

Size size_of(const Part& enclosure) {
    return {enclosure.width_mm.value_or(0), enclosure.height_mm.value_or(0),
            enclosure.depth_mm.value_or(0)};
}

/// Without the enclosures that have more volume, or no size.
Node volume_change(const Box& box, double most, const PriceBook& book) {
    std::vector<std::string> excluded = box.choices.exclude;
    for (const Part* part : book.of_kind("enclosure")) {
        const double volume = size_of(*part).volume();
        if (volume == 0 || volume > most) excluded.push_back(part->key);
    }
    return box_change(box.name, "choices", "exclude", texts(excluded));
}

bool allowed(const Size& size, const Site& site) {
    return size.width <= site.max_width_mm.value_or(size.width) &&
           size.height <= site.max_height_mm.value_or(size.height) &&
           size.depth <= site.max_depth_mm.value_or(size.depth);
}

} // namespace

std::string warmest_module(const Estimate& estimate, const PriceBook& book) {
    std::string warmest;
    double most = 0;
    for (const BoxResult& box : estimate.boxes)
        for (const ModuleResult& module : box.modules) {
            const Part* part = book.find(module.part);
            if (module.role != "module" || !part || !part->own_a) continue;
            int channels = 0;
            for (const ChannelGroup& group : part->groups) channels += group.channels;
            const double heat = channels > 0 ? *part->own_a / channels : 0;
            if (heat <= most) continue;
            most = heat;
            warmest = module.part;
        }
    return warmest;
}

Node without_parts(const BidRequest& request, const std::vector<std::string>& parts) {
    return change_of_boxes(request, "exclude", [&](const Box& box) {
        std::vector<std::string> excluded = box.choices.exclude;
        excluded.insert(excluded.end(), parts.begin(), parts.end());
        return std::optional(texts(excluded));
    });
}

std::vector<SmallerSize> smaller_sizes(const Estimate& base, std::size_t box,
                                       const PriceBook& book) {
    const Box& asked = base.request.boxes[box];
    const EnclosureResult& own = base.boxes[box].enclosures.front();
    std::vector<SmallerSize> changes;
    if (asked.choices.enclosure != EnclosureChoice::choose || !own.width_mm || !own.height_mm ||
        !own.depth_mm)
        return changes;
    const double volume = own.quantity * *own.width_mm * *own.height_mm * *own.depth_mm;
    std::set<Size> sizes;
    for (const Part* part : book.of_kind("enclosure")) {
        const Size size = size_of(*part);
        const bool smaller = size.volume() > 0 && size.volume() < volume;
        if (smaller && allowed(size, asked.site) && may_choose(*part, asked, base.request))
            sizes.insert(size);
    }
    std::vector<Size> ordered(sizes.begin(), sizes.end());
    std::stable_sort(ordered.begin(), ordered.end(),
                     [](const Size& a, const Size& b) { return a.volume() < b.volume(); });
    for (const Size& size : ordered)
        changes.push_back(
            {site_change(asked.name, size), volume_change(asked, size.volume(), book)});
    return changes;
}

std::vector<Trial> trials_of(const Estimate& base, const PriceBook& book) {
    std::vector<Trial> trials;
    try_lifted_choices(base, trials);
    try_platforms(base, book, trials);
    try_mixes(base, book, trials);
    try_fewer_kinds(base, trials);
    try_boxes(base, book, trials);
    const auto from_store = [](const Box& box) { return box.choices.in_stock_only; };
    const auto& boxes = base.request.boxes;
    if (!std::all_of(boxes.begin(), boxes.end(), from_store))
        trials.push_back({"Own store", "parts that the shop has in stock",
                          choice_change(base.request, "in_stock_only", Node::make_flag(true))});
    return trials;
}

} // namespace backplate
