#include "app/command_line/takeoff_changes.h"

#include <algorithm>
#include <iostream>
#include <optional>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/counted.h"
#include "app/list_points.h"
#include "app/list_take_off.h"
#include "app/request_input.h"
#include "catalog/exchange/request_json.h"
#include "pricing/price_job.h"
#include "pricing/takeoff/compare_lists.h"
#include "pricing/takeoff/plain_text.h"
#include "pricing/takeoff/tally.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;
using Is = PointChange::Is;

struct ChangeWord {
    Is is;
    const char* word;
};
constexpr ChangeWord change_words[] = {
    {Is::added, "added"}, {Is::removed, "removed"}, {Is::changed, "changed"}, {Is::moved, "moved"}};

/// The request with each of the two lists in it, priced.
struct PricedLists {
    Estimate before, after;

    bool built() const { return before.price && after.price; }
    std::string difference() const {
        return (after.price->price - before.price->price).text(after.price->digits);
    }
};

/// A box that the earlier list named and the new one does not is gone.
void drop_boxes(Node& request, const Takeoff& earlier, const Takeoff& now) {
    const auto names = [](const Takeoff& list, const std::string& box) {
        return std::ranges::any_of(list.points, [&](const TakenPoint& point) {
            return lower_ascii(point.panel) == lower_ascii(box);
        });
    };
    std::erase_if(request.member("boxes").items, [&](const Node& box) {
        const Node* name = box.find("name");
        return name && names(earlier, name->text) && !names(now, name->text);
    });
}

Estimate priced_with(const Takeoff& list, const Takeoff* earlier, const std::string& file,
                     const TakeoffArguments& arguments, const Inputs& inputs) {
    Node request = parse_json(arguments.request, read_text(arguments.request)).root;
    if (earlier) drop_boxes(request, *earlier, list);
    write_points(request, arguments.request, list, file);
    Work work;
    const RequestText text{arguments.request + " with " + file, json_text(request), {}, {}};
    return price_job(checked_request(text, inputs), *inputs.prices, *inputs.rules, work);
}

std::string place_text(const TakenPoint& point) {
    return fmt::format("{}{}row {}", point.sheet, point.sheet.empty() ? "" : ", ", point.row);
}

std::string name_text(const TakenPoint& point) {
    const std::string& name = point.tag.empty() ? point.text : point.tag;
    return name.empty() ? "without a tag" : name;
}

std::string where_text(const TakenPoint& point) {
    return fmt::format("{}{}{}", point.signal, point.panel.empty() ? "" : " in ", point.panel);
}

std::string change_text(const PointChange& change) {
    const TakenPoint& known = change.is == Is::removed ? change.before : change.after;
    std::string text = fmt::format("  {} ({})", name_text(known), place_text(known));
    if (change.count > 1) text += fmt::format(", {} points", change.count);
    if (change.is == Is::added || change.is == Is::removed) return text + ": " + where_text(known);
    return text + fmt::format(": {}, was {}", where_text(change.after), where_text(change.before));
}

Json point_json(const TakenPoint& point) {
    if (point.signal.empty()) return nullptr;
    Json json{{"signal", point.signal}, {"panel", point.panel}, {"row", point.row}};
    if (!point.sheet.empty()) json["sheet"] = point.sheet;
    return json;
}

Json changes_json(const ListChanges& changes, Is is) {
    Json list = Json::array();
    for (const PointChange& change : changes.changes) {
        if (change.is != is) continue;
        const TakenPoint& known = is == Is::removed ? change.before : change.after;
        list.push_back({{"tag", known.tag},
                        {"text", known.text},
                        {"count", change.count},
                        {"before", point_json(change.before)},
                        {"after", point_json(change.after)}});
    }
    return list;
}

Json panels_json(const PanelCounts& panels) {
    Json json = Json::object();
    for (const auto& [panel, counts] : panels) json[panel] = Json(counts);
    return json;
}

Json price_json(const PricedLists& priced) {
    const auto amount = [](const Estimate& estimate) {
        return estimate.price ? Json(estimate.price->price.text(estimate.price->digits))
                              : Json(nullptr);
    };
    return {{"currency", priced.after.price ? Json(priced.after.price->currency) : Json(nullptr)},
            {"before", amount(priced.before)},
            {"after", amount(priced.after)},
            {"difference", priced.built() ? Json(priced.difference()) : Json(nullptr)},
            {"demo_data", priced.after.demo_data}};
}

void print_json(const TakenList& before, const TakenList& after, const ListChanges& changes,
                const std::optional<PricedLists>& priced) {
    Json json{{"format", "backplate-takeoff-changes/1"},
              {"file", after.reading.file},
              {"against", before.reading.file}};
    for (const ChangeWord& each : change_words) json[each.word] = changes_json(changes, each.is);
    json["panels_before"] = panels_json(changes.before);
    json["panels_after"] = panels_json(changes.after);
    json["open_questions"] = {{"before", before.takeoff.ask.size()},
                              {"after", after.takeoff.ask.size()}};
    json["price"] = priced ? price_json(*priced) : Json(nullptr);
    fmt::print("{}\n", json.dump(2));
}

std::string amount_text(const Estimate& estimate) {
    if (!estimate.price) return "nothing in the price book builds it";
    return estimate.price->price.text(estimate.price->digits) + " " + estimate.price->currency;
}

std::string price_text(const PricedLists& priced) {
    std::string text = fmt::format("\nPrice before  {}\nPrice after   {}\n",
                                   amount_text(priced.before), amount_text(priced.after));
    if (priced.built()) text += fmt::format("Difference    {}\n", priced.difference());
    return priced.after.demo_data ? text + "Prices are demo data.\n" : text;
}

void print_text(const TakenList& before, const TakenList& after, const ListChanges& changes,
                const std::optional<PricedLists>& priced) {
    fmt::print("{} against {}\n", after.reading.file, before.reading.file);
    for (const ChangeWord& each : change_words) {
        const int count = changes.count_of(each.is);
        fmt::print("\n{}: {}\n", each.word, count == 0 ? "none" : counted(count, "point"));
        for (const PointChange& change : changes.changes)
            if (change.is == each.is) fmt::print("{}\n", change_text(change));
    }
    fmt::print("\nPoints {} before, {} after\n", sum_of(before.takeoff.counts()),
               sum_of(after.takeoff.counts()));
    for (const TakenList* list : {&before, &after})
        if (list->takeoff.has_questions())
            fmt::print("{}: {} and {} are not in it\n", list->reading.file,
                       counted(list->takeoff.ask.size(), "open question"),
                       counted(list->takeoff.refuse_rows.size(), "refused row"));
    if (priced) fmt::print("{}", price_text(*priced));
}

} // namespace

int print_list_changes(const TakeoffArguments& arguments, const CommonArguments& common,
                       const Inputs& inputs, const TakeoffWish& wish) {
    const TakenList before = take_list(arguments.against, *inputs.rules, wish);
    const TakenList after = take_list(arguments.list, *inputs.rules, wish);
    const ListChanges changes = compare_lists(before.takeoff, after.takeoff);
    std::optional<PricedLists> priced;
    if (!arguments.request.empty())
        priced = {
            priced_with(before.takeoff, nullptr, before.reading.file, arguments, inputs),
            priced_with(after.takeoff, &before.takeoff, after.reading.file, arguments, inputs)};
    if (common.json)
        print_json(before, after, changes, priced);
    else
        print_text(before, after, changes, priced);
    return priced && !priced->built() ? not_as_asked : done;
}

} // namespace backplate
