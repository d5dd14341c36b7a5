#include "pricing/request/node.h"

#include <algorithm>
#include <charconv>

namespace backplate {
namespace {

std::optional<std::size_t> index_of(std::string_view step) {
    std::size_t index = 0;
    const auto [end, fault] = std::from_chars(step.data(), step.data() + step.size(), index);
    if (fault != std::errc{} || end != step.data() + step.size()) return std::nullopt;
    return index;
}

std::string_view next_step(std::string_view& pointer) {
    pointer.remove_prefix(1); // the stroke
    const auto end = std::min(pointer.find('/'), pointer.size());
    const auto step = pointer.substr(0, end);
    pointer.remove_prefix(end);
    return step;
}

bool bears(const Node& entry, std::string_view key, std::string_view name) {
    const Node* value = entry.find(key);
    return value && value->is(Node::Kind::text) && value->text == name;
}

Node* named_entry(Node& list, std::string_view name, std::string_view first,
                  std::string_view second) {
    for (const auto key : {first, second})
        for (Node& entry : list.items)
            if (!key.empty() && bears(entry, key, name)) return &entry;
    return nullptr;
}

std::optional<std::string> merge(Node& target, const Node& patch, const std::string& where);

std::optional<std::string> merge_named(Node& list, const Node& patch, const std::string& where,
                                       std::string_view first, std::string_view second) {
    for (const Member& change : patch.members) {
        Node* entry = named_entry(list, change.key, first, second);
        const std::string place = where + "/" + change.key;
        if (!entry && bears(change.value, first, change.key)) {
            list.items.push_back(change.value);
            continue;
        }
        if (!entry) return place;
        if (auto fault = merge(*entry, change.value, place)) return fault;
    }
    return std::nullopt;
}

std::optional<std::string> merge(Node& target, const Node& patch, const std::string& where) {
    if (!patch.is(Node::Kind::object)) {
        target = patch;
        return std::nullopt;
    }
    if (!target.is(Node::Kind::object)) target = Node::make_object();
    for (const Member& change : patch.members) {
        const std::string place = where + "/" + change.key;
        Node* old = target.find(change.key);
        if (change.value.is(Node::Kind::null)) {
            target.erase(change.key);
        } else if (old && old->is(Node::Kind::list) && change.value.is(Node::Kind::object) &&
                   (change.key == "boxes" || change.key == "points")) {
            const bool boxes = change.key == "boxes";
            if (auto fault = merge_named(*old, change.value, place, boxes ? "name" : "id",
                                         boxes ? "" : "signal"))
                return fault;
        } else if (auto fault = merge(target.member(change.key), change.value, place)) {
            return fault;
        }
    }
    return std::nullopt;
}

} // namespace

Node Node::make_flag(bool value) {
    Node node;
    node.kind = Kind::flag;
    node.flag = value;
    return node;
}

Node Node::make_number(std::string literal) {
    Node node;
    node.kind = Kind::number;
    node.text = std::move(literal);
    return node;
}

Node Node::make_text(std::string content) {
    Node node;
    node.kind = Kind::text;
    node.text = std::move(content);
    return node;
}

Node Node::make_list() {
    Node node;
    node.kind = Kind::list;
    return node;
}

Node Node::make_object() {
    Node node;
    node.kind = Kind::object;
    return node;
}

const Node* Node::find(std::string_view key) const {
    for (const Member& entry : members)
        if (entry.key == key) return &entry.value;
    return nullptr;
}

Node* Node::find(std::string_view key) {
    for (Member& entry : members)
        if (entry.key == key) return &entry.value;
    return nullptr;
}

Node& Node::member(std::string_view key) {
    if (Node* found = find(key)) return *found;
    members.push_back({std::string(key), Node{}});
    return members.back().value;
}

void Node::erase(std::string_view key) {
    std::erase_if(members, [&](const Member& entry) { return entry.key == key; });
}

bool operator==(const Node& a, const Node& b) {
    return a.kind == b.kind && a.flag == b.flag && a.text == b.text && a.items == b.items &&
           a.members == b.members;
}

const Node* at_pointer(const Node& root, std::string_view pointer) {
    const Node* node = &root;
    while (node && !pointer.empty()) {
        const auto step = next_step(pointer);
        if (node->is(Node::Kind::list)) {
            const auto index = index_of(step);
            node = index && *index < node->items.size() ? &node->items[*index] : nullptr;
        } else {
            node = node->find(step);
        }
    }
    return node;
}

Node* make_at_pointer(Node& root, std::string_view pointer) {
    Node* node = &root;
    while (node && !pointer.empty()) {
        const auto step = next_step(pointer);
        if (node->is(Node::Kind::list)) {
            const auto index = index_of(step);
            node = index && *index < node->items.size() ? &node->items[*index] : nullptr;
        } else {
            if (!node->is(Node::Kind::object)) *node = Node::make_object();
            node = &node->member(step);
        }
    }
    return node;
}

std::optional<std::string> apply_change(Node& request, const Node& change) {
    return merge(request, change, "");
}

} // namespace backplate
