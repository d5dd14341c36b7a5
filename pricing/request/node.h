#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backplate {

struct Member;

/// A plain tree of values as a request holds them: what was sent, key by key, numbers as they
/// were written. Text forms (JSON) live in the catalog and the reports.
struct Node {
    enum class Kind { null, flag, number, text, list, object };

    Kind kind = Kind::null;
    bool flag = false;
    std::string text; ///< content of a text, or the literal of a number
    std::vector<Node> items;
    std::vector<Member> members; ///< in the order of writing, keys unique

    static Node make_null() { return {}; }
    static Node make_flag(bool value);
    static Node make_number(std::string literal);
    static Node make_text(std::string content);
    static Node make_list();
    static Node make_object();

    bool is(Kind wanted) const { return kind == wanted; }
    const Node* find(std::string_view key) const;
    Node* find(std::string_view key);
    /// The member `key`, added as null where it is absent.
    Node& member(std::string_view key);
    void erase(std::string_view key);
    friend bool operator==(const Node& a, const Node& b);
};

struct Member {
    std::string key;
    Node value;
    friend bool operator==(const Member& a, const Member& b) = default;
};

/// The node that a JSON pointer ("/boxes/0/points") names, or null.
const Node* at_pointer(const Node& root, std::string_view pointer);
/// As above; makes absent object members on the way. Lists are not extended: returns null.
Node* make_at_pointer(Node& root, std::string_view pointer);

/// Merge patch of RFC 7396 in which `boxes` is an object by box name and `points` an object by
/// id or signal; what nothing bears is added where it states that name (box) or id (points)
/// itself. Returns the place of the first other name that nothing bears, or nothing.
std::optional<std::string> apply_change(Node& request, const Node& change);

} // namespace backplate
