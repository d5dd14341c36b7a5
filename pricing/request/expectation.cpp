#include "pricing/request/expectation.h"

#include <array>
#include <string_view>

#include "pricing/request/node_values.h"
#include "pricing/request/words.h"

namespace backplate {
namespace {

struct TypeName {
    std::string_view type, name;
};

constexpr auto type_names = std::array{
    TypeName{"object", "an object"},
    TypeName{"list", "a list of objects"},
    TypeName{"text", "text"},
    TypeName{"date", "a date as YYYY-MM-DD"},
    TypeName{"flag", "true or false"},
    TypeName{"integer", "a whole number"},
    TypeName{"number", "a number"},
    TypeName{"percent", "a number"},
    TypeName{"hours", "a number"},
    TypeName{"money", "an amount in quotes such as \"12.50\""},
    TypeName{"range", "[lowest, highest], both"},
    TypeName{"percent_map", "a number or an object by signal"},
    TypeName{"integer_map", "a whole number or an object by signal"},
};

std::string joined(const std::vector<std::string>& words) {
    std::string list;
    for (const std::string& word : words) {
        if (!list.empty()) list += ", ";
        const auto pattern = pattern_of(word);
        list += pattern.empty() ? word : "text of the pattern " + std::string(pattern);
    }
    return list;
}

std::string type_text(const DefaultRow& row, const std::vector<std::string>& words) {
    const bool many = row.type == "words";
    if (words.size() == 1 && !many) return joined(words);
    if (!words.empty()) return (many ? "a list of the words " : "one of ") + joined(words);
    if (many) return "a list of texts";
    for (const TypeName& each : type_names)
        if (each.type == row.type) return std::string(each.name);
    return "text";
}

std::string range_text(const DefaultRow& row) {
    std::string text;
    if (row.minimum && row.maximum)
        text = " from " + short_text(*row.minimum) + " to " + short_text(*row.maximum);
    else if (row.minimum)
        text = " of at least " + short_text(*row.minimum);
    if (row.type == "list" && !text.empty()) text += " entries";
    return row.unit.empty() ? text : text + " " + row.unit;
}

} // namespace

std::string expectation(const DefaultRow& row, const std::vector<std::string>& words) {
    std::string text = type_text(row, words) + range_text(row);
    if (row.decimals.value_or(0) > 0)
        text += ", at most " + steps_text(*row.decimals, 0) +
                (*row.decimals == 1 ? " decimal" : " decimals");
    return text;
}

} // namespace backplate
