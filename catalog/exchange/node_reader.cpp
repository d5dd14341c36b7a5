#include "catalog/exchange/node_reader.h"

#include <algorithm>

#include <fmt/format.h>

#include "pricing/request/check_request.h"
#include "pricing/request/node_values.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// What stands there, short enough for a message.
std::string shown(const Node& node) {
    constexpr std::size_t most = 60;
    if (node.is(Node::Kind::list)) return "a list";
    if (node.is(Node::Kind::object)) return "an object";
    const std::string text = json_line(node);
    return text.size() <= most ? text : "a text of " + std::to_string(text.size()) + " bytes";
}

} // namespace

NodeReader NodeReader::member(std::string_view key) const {
    if (!node_.is(Node::Kind::object)) refuse("an object");
    const std::string below = pointer_ + "/" + std::string(key);
    if (const Node* found = node_.find(key)) return {name_, *found, below};
    throw BadInput(name_ + ": " + below + ": is absent, expected it");
}

void NodeReader::require_keys(const std::vector<std::string_view>& keys) const {
    for (const auto key : keys) member(key);
    for (const Member& held : node_.members)
        if (std::ranges::find(keys, held.key) == keys.end()) {
            const auto nearest = nearest_word(held.key, {keys.begin(), keys.end()});
            throw BadInput(name_ + ": " + pointer_ + "/" + held.key + ": is no key" +
                           (nearest.empty() ? "" : "; nearest: " + nearest));
        }
}

std::vector<NodeReader> NodeReader::items() const {
    if (!node_.is(Node::Kind::list)) refuse("a list");
    std::vector<NodeReader> readers;
    for (std::size_t i = 0; i < node_.items.size(); ++i)
        readers.push_back({name_, node_.items[i], pointer_ + "/" + std::to_string(i)});
    return readers;
}

std::string NodeReader::text() const {
    if (!node_.is(Node::Kind::text)) refuse("a text");
    return node_.text;
}

std::string NodeReader::text_or_null() const {
    if (is_null()) return {};
    if (!node_.is(Node::Kind::text)) refuse("a text or null");
    return node_.text;
}

bool NodeReader::flag() const {
    if (!node_.is(Node::Kind::flag)) refuse("true or false");
    return node_.flag;
}

std::int64_t NodeReader::whole(std::int64_t low, std::int64_t high) const {
    if (const auto value = exact_value(node_))
        if (const auto steps = to_steps(*value, 0); steps && *steps >= low && *steps <= high)
            return *steps;
    refuse(fmt::format("a whole number from {} to {}", low, high));
}

Money NodeReader::money() const {
    if (node_.is(Node::Kind::text))
        if (const auto money = Money::parse(node_.text)) return *money;
    refuse("an amount as a text");
}

std::optional<Money> NodeReader::money_or_null() const {
    return is_null() ? std::nullopt : std::optional(money());
}

Hours NodeReader::hours() const {
    if (node_.is(Node::Kind::number))
        if (const auto hours = Hours::parse(node_.text)) return *hours;
    refuse("hours with up to three decimals");
}

void NodeReader::refuse(const std::string& expected) const {
    throw BadInput(name_ + ": " + (pointer_.empty() ? "/" : pointer_) + ": is " + shown(node_) +
                   ", expected " + expected);
}

} // namespace backplate
