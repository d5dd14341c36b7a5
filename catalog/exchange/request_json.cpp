#include "catalog/exchange/request_json.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "catalog/cells/encoding.h"
#include "pricing/request/check_values.h"
#include "pricing/request/node_values.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using nlohmann::json;

constexpr std::size_t most_bytes = std::size_t{64} << 20;
constexpr std::size_t most_depth = 64;

std::string number_of(std::size_t value) { return steps_text(static_cast<std::int64_t>(value), 0); }

/// "line 3, column 7" of the byte that the reader took last.
std::string position_text(const std::string& text, std::size_t bytes_read) {
    const std::size_t at = bytes_read == 0 ? 0 : std::min(bytes_read - 1, text.size());
    const std::string_view before = std::string_view(text).substr(0, at);
    const auto lines = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
    const auto line_start = before.rfind('\n') + 1; // 0 where there is none
    return "line " + number_of(lines + 1) + ", column " +
           number_of(character_count(before.substr(line_start)) + 1);
}

/// What the reader says, without the place that it puts in front.
std::string reason_of(std::string_view message) {
    constexpr std::string_view lead = "syntax error ";
    const auto at = message.find(lead);
    return std::string(at == std::string_view::npos ? message.substr(message.find("] ") + 2)
                                                    : message.substr(at + lead.size()));
}

/// Makes the tree while the text is read; the way from the root to the open object or list lies
/// on a stack.
class TreeBuilder : public nlohmann::json_sax<json> {
public:
    TreeBuilder(const std::string& name, const std::string& text) : name_(name), text_(text) {}

    Node take() { return std::move(root_); }

    bool null() override { return add(Node::make_null()); }
    bool boolean(bool value) override { return add(Node::make_flag(value)); }
    bool number_integer(number_integer_t value) override {
        return add(Node::make_number(steps_text(value, 0)));
    }
    bool number_unsigned(number_unsigned_t value) override {
        return add(Node::make_number(json(value).dump()));
    }
    bool number_float(number_float_t, const string_t& literal) override {
        return add(Node::make_number(literal));
    }
    bool string(string_t& value) override { return add(Node::make_text(std::move(value))); }
    bool binary(binary_t&) override { return false; } // not in JSON text
    bool start_object(std::size_t) override { return open(Node::make_object()); }
    bool end_object() override { return close(); }
    bool start_array(std::size_t) override { return open(Node::make_list()); }
    bool end_array() override { return close(); }
    bool key(string_t& value) override {
        if (!open_.back().keys.insert(value).second)
            throw BadInput(name_ + ": " + step_down(pointer(), value) +
                           ": the key is repeated, expected it once");
        open_.back().node->members.push_back({std::move(value), Node()});
        return true;
    }
    bool parse_error(std::size_t position, const std::string&,
                     const nlohmann::detail::exception& error) override {
        throw BadInput(name_ + ": " + position_text(text_, position) + ": no JSON " +
                       reason_of(error.what()));
    }

private:
    struct Open {
        Node* node;
        std::set<std::string> keys;
    };

    Node& place() {
        if (open_.empty()) return root_;
        Node& parent = *open_.back().node;
        if (parent.is(Node::Kind::object)) return parent.members.back().value;
        parent.items.emplace_back();
        return parent.items.back();
    }
    bool add(Node node) {
        place() = std::move(node);
        return true;
    }
    bool open(Node node) {
        if (open_.size() == most_depth)
            throw BadInput(name_ + ": " + pointer() + ": nested too deeply, expected at most " +
                           number_of(most_depth) + " levels");
        Node& here = place();
        here = std::move(node);
        open_.push_back({&here, {}});
        return true;
    }
    bool close() {
        open_.pop_back();
        return true;
    }
    /// Of the open object or list.
    std::string pointer() const {
        std::string result;
        for (std::size_t i = 0; i + 1 < open_.size(); ++i) {
            const Node& node = *open_[i].node;
            result = node.is(Node::Kind::object) ? step_down(result, node.members.back().key)
                                                 : step_down(result, node.items.size() - 1);
        }
        return result;
    }

    const std::string& name_;
    const std::string& text_;
    Node root_;
    std::vector<Open> open_;
};

void check_bytes(const std::string& name, const std::string& text) {
    if (text.size() > most_bytes) throw BadInput(name + ": is too large; expected at most 64 MiB");
    if (is_utf8(text)) return;
    std::size_t line = 1, start = 0;
    while (start < text.size()) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        if (!is_utf8(std::string_view(text).substr(start, end - start))) break;
        start = end + 1;
        ++line;
    }
    throw BadInput(name + ": line " + number_of(line) + ": is not UTF-8");
}

void write(std::string& out, const Node& node, const std::string& indent);

void write_list(std::string& out, const Node& node, const std::string& indent) {
    const std::string deeper = indent + "  ";
    out += "[";
    for (const Node& item : node.items) {
        out += (&item == &node.items.front() ? "\n" : ",\n") + deeper;
        write(out, item, deeper);
    }
    out += (node.items.empty() ? "" : "\n" + indent) + "]";
}

void write_object(std::string& out, const Node& node, const std::string& indent) {
    const std::string deeper = indent + "  ";
    out += "{";
    for (const Member& member : node.members) {
        out += (&member == &node.members.front() ? "\n" : ",\n") + deeper +
               json_quoted(member.key) + ": ";
        write(out, member.value, deeper);
    }
    out += (node.members.empty() ? "" : "\n" + indent) + "}";
}

void write(std::string& out, const Node& node, const std::string& indent) {
    if (node.is(Node::Kind::list))
        write_list(out, node, indent);
    else if (node.is(Node::Kind::object))
        write_object(out, node, indent);
    else
        out += json_line(node);
}

} // namespace

ParsedJson parse_json(const std::string& name, const std::string& text) {
    check_bytes(name, text);
    TreeBuilder builder(name, text);
    constexpr bool strict = true, skip_comments = true;
    json::sax_parse(text, &builder, json::input_format_t::json, strict, skip_comments);
    return {builder.take(), !json::accept(text)};
}

std::string comments_of(const std::string& text) {
    std::string lines;
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == '"') {
            for (++at; at < text.size() && text[at] != '"'; ++at) at += text[at] == '\\' ? 1 : 0;
        } else if (text.compare(at, 2, "//") == 0 || text.compare(at, 2, "/*") == 0) {
            const bool line = text[at + 1] == '/';
            std::size_t end = line ? text.find_first_of("\r\n", at) : text.find("*/", at + 2);
            end = std::min(end == std::string::npos || line ? end : end + 2, text.size());
            lines += text.substr(at, end - at) + "\n";
            at = end;
            continue;
        }
        ++at;
    }
    return lines;
}

std::string json_text(const Node& root, const std::string& comments) {
    std::string out = comments;
    write(out, root, "");
    return out + "\n";
}

} // namespace backplate
