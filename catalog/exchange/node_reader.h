#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/request/node.h"
#include "pricing/values/money.h"

namespace backplate {

/// Reads a file of our own format out of its tree. Whatever does not fit is a BadInput that names
/// the file, the JSON pointer and the expectation.
class NodeReader {
public:
    NodeReader(const std::string& name, const Node& root) : NodeReader(name, root, "") {}

    NodeReader member(std::string_view key) const; ///< must be there
    /// An object with these keys, all of them and no others.
    void require_keys(const std::vector<std::string_view>& keys) const;
    bool is_null() const { return node_.is(Node::Kind::null); }
    std::vector<NodeReader> items() const; ///< of a list

    std::string text() const;
    std::string text_or_null() const; ///< null: empty
    bool flag() const;
    /// A whole number within the bounds.
    std::int64_t whole(std::int64_t low, std::int64_t high) const;
    Money money() const;                        ///< a text
    std::optional<Money> money_or_null() const; ///< null: nothing
    Hours hours() const;                        ///< a number

    const Node& node() const { return node_; }
    const std::string& pointer() const { return pointer_; }
    /// "expected …" is what should stand there.
    [[noreturn]] void refuse(const std::string& expected) const;

private:
    NodeReader(const std::string& name, const Node& node, std::string pointer)
        : name_(name), node_(node), pointer_(std::move(pointer)) {}

    const std::string& name_;
    const Node& node_;
    std::string pointer_;
};

} // namespace backplate
