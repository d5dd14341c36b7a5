#include "pricing/request/request_keys.h"

#include <algorithm>
#include <array>

namespace backplate {
namespace {

struct OriginKey {
    std::string_view name, type;
};

/// Where a point came from in the client's list; never filled in, so no row has a default for it.
constexpr auto origin_keys =
    std::array{OriginKey{"origin", "object"}, OriginKey{"origin.file", "text"},
               OriginKey{"origin.sheet", "text"}, OriginKey{"origin.row", "integer"}};
constexpr auto origin_owners =
    std::array{std::string_view("boxes[].points[]."), std::string_view("boxes[].points[].list[].")};

RequestKey& child(RequestKey& key, const std::string& name) {
    const auto found = std::find_if(key.below.begin(), key.below.end(),
                                    [&](const RequestKey& each) { return each.name == name; });
    if (found != key.below.end()) return *found;
    key.below.push_back({name, {}, {}});
    return key.below.back();
}

void add(RequestKey& root, DefaultRow row) {
    RequestKey* key = &root;
    for (const KeyStep& step : key_steps(row.key)) key = &child(*key, step.name);
    key->row = std::move(row);
}

DefaultRow origin_row(std::string_view owner, const OriginKey& key) {
    DefaultRow row;
    row.key = std::string(owner) + std::string(key.name);
    row.type = key.type;
    row.default_iec = row.default_north_america = "null";
    if (key.type == "integer") row.decimals = 0;
    return row;
}

} // namespace

const RequestKey* RequestKey::find(std::string_view step) const {
    for (const RequestKey& key : below)
        if (key.name == step) return &key;
    return nullptr;
}

std::vector<KeyStep> key_steps(std::string_view key) {
    std::vector<KeyStep> steps;
    while (!key.empty()) {
        const auto end = std::min(key.find('.'), key.size());
        std::string_view name = key.substr(0, end);
        const bool list = name.ends_with("[]");
        if (list) name.remove_suffix(2);
        steps.push_back({std::string(name), list});
        key.remove_prefix(std::min(end + 1, key.size()));
    }
    return steps;
}

RequestKey request_keys(const RuleBook& rules) {
    RequestKey root;
    root.row.type = "object";
    for (const DefaultRow& row : rules.defaults) add(root, row);
    for (const auto owner : origin_owners)
        for (const OriginKey& key : origin_keys) add(root, origin_row(owner, key));
    return root;
}

} // namespace backplate
