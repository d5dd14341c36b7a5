#include "pricing/job/estimate_record.h"

#include <algorithm>
#include <map>
#include <utility>

namespace backplate {
namespace {

using Named = std::vector<std::pair<std::string, std::string>>; ///< name, what it says

std::string whole(std::int64_t value) { return steps_text(value, 0); }

Named points_of(const EstimateRecord& record) {
    Named named;
    for (const auto& point : record.points)
        named.emplace_back(point.box + " " + point.signal,
                           whole(point.used) + " used, " + whole(point.required) + " required, " +
                               (point.fitted ? whole(*point.fitted) + " fitted" : "not built"));
    return named;
}

Named modules_of(const EstimateRecord& record) {
    Named named;
    for (const auto& module : record.modules)
        named.emplace_back(module.box + " " + module.part, whole(module.quantity));
    return named;
}

Named hours_of(const EstimateRecord& record) {
    Named named;
    if (!record.priced) return named;
    for (const PricedLine& line : record.priced->labour)
        named.emplace_back((line.box.empty() ? "" : line.box + " ") + line.text,
                           Hours::of_steps(line.quantity).text() + " h");
    return named;
}

Named assumptions_of(const EstimateRecord& record) {
    Named named;
    for (const auto& taken : record.assumptions) named.emplace_back(taken.field, taken.text);
    return named;
}

std::string taken_out(Named& named, const std::string& name) {
    const auto found = std::ranges::find(named, name, &Named::value_type::first);
    if (found == named.end()) return {};
    std::string text = std::move(found->second);
    named.erase(found);
    return text;
}

/// Rows that differ, those of the later one first in its order.
void add_changes(std::vector<RecordChange>& changes, const char* what, Named before,
                 const Named& after) {
    for (const auto& [name, text] : after)
        if (const std::string old = taken_out(before, name); old != text)
            changes.push_back({what, name, old, text});
    for (const auto& [name, text] : before) changes.push_back({what, name, text, ""});
}

std::string all_points(const EstimateRecord& record) {
    std::int64_t used = 0;
    for (const auto& each : record.points) used += std::int64_t{each.used} * each.boxes;
    return whole(used) + " used";
}

std::string all_hours(const EstimateRecord& record) {
    if (!record.priced) return {};
    Hours sum;
    for (const PricedLine& line : record.priced->labour) sum += Hours::of_steps(line.quantity);
    return sum.text() + " h";
}

std::string price_text(const EstimateRecord& record) {
    if (!record.priced) return {};
    return record.priced->price.text(record.priced->digits) + " " + record.priced->currency;
}

} // namespace

EstimateRecord in_boxes_of(EstimateRecord before, const EstimateRecord& after) {
    if (before.boxes.size() != after.boxes.size()) return before;
    std::map<std::string, std::string> names;
    for (std::size_t i = 0; i < before.boxes.size(); ++i)
        if (std::ranges::find(after.boxes, before.boxes[i]) == after.boxes.end())
            names[before.boxes[i]] = after.boxes[i];
    const auto rename = [&](auto& rows) {
        for (auto& row : rows)
            if (const auto found = names.find(row.box); found != names.end())
                row.box = found->second;
    };
    rename(before.points);
    rename(before.modules);
    if (before.priced) {
        rename(before.priced->bill);
        rename(before.priced->labour);
    }
    return before;
}

std::vector<RecordChange> differences(const EstimateRecord& before, const EstimateRecord& after) {
    std::vector<RecordChange> changes;
    add_changes(changes, "points", points_of(before), points_of(after));
    changes.push_back({"points", "all", all_points(before), all_points(after)});
    add_changes(changes, "modules", modules_of(before), modules_of(after));
    add_changes(changes, "hours", hours_of(before), hours_of(after));
    changes.push_back({"hours", "all", all_hours(before), all_hours(after)});
    changes.push_back({"price", "price", price_text(before), price_text(after)});
    add_changes(changes, "assumptions", assumptions_of(before), assumptions_of(after));
    return changes;
}

} // namespace backplate
