#include "app/command_line/example_request.h"

#include <algorithm>
#include <array>

#include "pricing/request/default_values.h"
#include "pricing/request/expectation.h"
#include "pricing/request/node_values.h"
#include "pricing/request/request_keys.h"
#include "pricing/request/words.h"

namespace backplate {
namespace {

/// Values that a blank request states although nothing has to be, or must, as an example.
struct Stated {
    std::string_view key, json;
};
constexpr std::array stated_values{
    Stated{"format", "\"backplate-request/1\""},
    Stated{"boxes[].points[].signal", "\"DI\""},
    Stated{"boxes[].points[].count", "0"},
};
constexpr std::string_view heading =
    "/* A blank request. What is left out takes the value that its comment shows. Remove the "
    "first\n"
    "   `// ` of a line to state the value; a line with two tells what else may stand there. */\n";
constexpr std::string_view practice_key = "job.practice";
constexpr std::string_view example_signal = "DI";

/// Stands; is a comment whose value may stand; tells what else may be written.
enum class Weight { stands, optional, told };

class ExampleWriter {
public:
    ExampleWriter(const RuleBook& rules, bool north_america)
        : practice_(north_america ? "north_america" : "iec"),
          defaults_(rules, north_america, Date()), words_(rules, Node()),
          keys_(request_keys(rules)) {
        line_.member("signal") = Node::make_text(std::string(example_signal));
    }

    std::string write() {
        text_ = std::string(heading) + "{\n";
        write_below(keys_, Weight::stands, 1);
        return text_ + "}\n";
    }

private:
    void write_below(const RequestKey& key, Weight weight, std::size_t depth);
    void write_key(const RequestKey& key, Weight weight, std::size_t depth, bool last);
    void write_opened(const RequestKey& key, Weight weight, std::size_t depth, bool last);
    void write_alternatives(const RequestKey& key, std::size_t depth);
    void add_line(Weight weight, std::size_t depth, const std::string& content,
                  const std::string& remark);

    std::string remark_of(const RequestKey& key) const;
    Weight weight_of(const RequestKey& key, Weight around) const;
    std::optional<std::string> value_of(const RequestKey& key) const;
    bool opened(const RequestKey& key) const {
        return key.row.type == "object" ? !key.below.empty() && value_of(key) == "{}"
                                        : is_required_list(key);
    }
    bool is_required_list(const RequestKey& key) const {
        return key.row.type == "list" && defaults_.text(key.row) == "required";
    }

    std::string practice_;
    DefaultValues defaults_;
    Words words_;
    RequestKey keys_;
    Node line_ = Node::make_object();
    std::string text_;
};

std::optional<std::string> ExampleWriter::value_of(const RequestKey& key) const {
    if (key.row.key == practice_key) return json_quoted(practice_);
    for (const Stated& each : stated_values)
        if (each.key == key.row.key) return std::string(each.json);
    if (defaults_.text(key.row) == "today") return std::nullopt;
    const auto value = defaults_.value(key.row, line_, 0);
    return value ? std::optional(json_line(*value)) : std::nullopt;
}

std::string ExampleWriter::remark_of(const RequestKey& key) const {
    const auto words = words_.of(key.row.key);
    return expectation(key.row, words);
}

bool holds_practice(const RequestKey& key) {
    return key.row.key == practice_key ||
           std::any_of(key.below.begin(), key.below.end(), holds_practice);
}

Weight ExampleWriter::weight_of(const RequestKey& key, Weight around) const {
    if (around == Weight::told || key.name == "{signal}") return Weight::told;
    if (holds_practice(key) || is_required_list(key)) return around;
    if (!value_of(key)) return Weight::told;
    const bool required = defaults_.text(key.row) == "required";
    return required ? around : Weight::optional;
}

/// The last of the weightiest closes, so that no comma is wrong whichever comments are removed.
void ExampleWriter::write_below(const RequestKey& key, Weight weight, std::size_t depth) {
    std::size_t closing = 0;
    for (std::size_t i = 1; i < key.below.size(); ++i)
        if (weight_of(key.below[i], weight) <= weight_of(key.below[closing], weight)) closing = i;
    for (std::size_t i = 0; i < key.below.size(); ++i)
        if (i != closing) write_key(key.below[i], weight_of(key.below[i], weight), depth, false);
    write_key(key.below[closing], weight_of(key.below[closing], weight), depth, true);
}

void ExampleWriter::write_key(const RequestKey& key, Weight weight, std::size_t depth, bool last) {
    if (opened(key)) return write_opened(key, weight, depth, last);
    const auto value = value_of(key);
    add_line(weight, depth, json_quoted(key.name) + ": " + value.value_or("…") + (last ? "" : ","),
             remark_of(key));
    write_alternatives(key, depth + 1);
}

void ExampleWriter::write_opened(const RequestKey& key, Weight weight, std::size_t depth,
                                 bool last) {
    const bool list = key.row.type == "list";
    add_line(weight, depth, json_quoted(key.name) + (list ? ": [ {" : ": {"), "");
    write_below(key, weight, depth + 1);
    add_line(weight, depth, (list ? "} ]" : "}") + std::string(last ? "" : ","), "");
}

void ExampleWriter::write_alternatives(const RequestKey& key, std::size_t depth) {
    for (const RequestKey& each : key.below) {
        const auto value = value_of(each);
        add_line(Weight::told, depth, json_quoted(each.name) + ": " + value.value_or("…"),
                 remark_of(each));
        write_alternatives(each, depth + 1);
    }
}

void ExampleWriter::add_line(Weight weight, std::size_t depth, const std::string& content,
                             const std::string& remark) {
    if (weight == Weight::optional) text_ += "// ";
    if (weight == Weight::told) text_ += "// // ";
    text_ += std::string(depth * 2, ' ') + content;
    text_ += remark.empty() ? "\n" : "  // " + remark + "\n";
}

} // namespace

std::string example_request(const RuleBook& rules, bool north_america) {
    return ExampleWriter(rules, north_america).write();
}

} // namespace backplate
