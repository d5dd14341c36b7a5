#include "catalog/exchange/price_map.h"

#include <algorithm>
#include <array>
#include <set>

#include "catalog/exchange/request_json.h"
#include "pricing/book/part_fields.h"
#include "pricing/price_list/list_rules.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr std::string_view format = "backplate-price-map/1";
constexpr auto keys =
    std::array<std::string_view, 10>{"format",    "maker",   "currency", "decimal", "dates",
                                     "lead_unit", "columns", "fixed",    "keys",    "states"};
constexpr auto fixed_fields = std::array<std::string_view, 7>{
    "discount_percent", "price_date", "valid_until", "pack", "minimum_order", "lead_days", "state"};

std::string joined(std::span<const std::string_view> words) {
    std::string text;
    for (const auto word : words) text += (text.empty() ? "" : ", ") + std::string(word);
    return text;
}

bool holds(std::span<const std::string_view> words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

class MapReader {
public:
    MapReader(std::string name, const Node& root) : name_(std::move(name)), root_(root) {}

    PriceMap read() const {
        check_keys();
        PriceMap map;
        map.maker = text("maker", "");
        map.currency = text("currency", "");
        map.decimal = word("decimal", std::array<std::string_view, 2>{",", "."}, "");
        map.dates = word("dates", std::array<std::string_view, 2>{"day_first", "month_first"}, "");
        map.lead_unit = word(
            "lead_unit", std::array<std::string_view, 3>{"days", "weeks", "working_days"}, "days");
        for (const auto& [heading, meaning] : texts("columns"))
            map.columns.push_back({heading, checked_meaning(heading, meaning)});
        for (const auto& [meaning, value] : texts("fixed"))
            map.fixed[checked_fixed(meaning, value)] = value;
        for (const auto& [theirs, ours] : texts("keys")) map.keys[theirs] = ours;
        for (const auto& [theirs, ours] : texts("states"))
            map.states[theirs] = checked_field("states", theirs, "state", ours);
        if (root_.find("columns") && map.columns.empty())
            refuse("columns", "names no column; expected headings and meanings, or no such key");
        return map;
    }

private:
    [[noreturn]] void refuse(const std::string& key, const std::string& what) const {
        throw BadInput(name_ + ": " + (key.empty() ? "" : "key " + key + ": ") + what);
    }

    void check_keys() const {
        if (!root_.is(Node::Kind::object)) refuse("", "is no object; expected { \"format\": … }");
        std::vector<std::string> known(keys.begin(), keys.end());
        for (const Member& member : root_.members) {
            if (holds(keys, member.key)) continue;
            const auto nearest = nearest_word(member.key, known);
            refuse(member.key,
                   "is no key of a map; " + (nearest.empty() ? "expected any of " + joined(keys)
                                                             : "nearest: " + nearest));
        }
        if (text("format", "") != format)
            refuse("format", "expected \"" + std::string(format) + "\"");
    }

    std::string text(const std::string& key, const char* absent) const {
        const Node* node = root_.find(key);
        if (!node) return absent;
        if (!node->is(Node::Kind::text) || node->text.empty())
            refuse(key, "expected a text that is not empty");
        return node->text;
    }

    std::string word(const std::string& key, std::span<const std::string_view> words,
                     const char* absent) const {
        const std::string found = text(key, absent);
        if (found != absent && !holds(words, found))
            refuse(key, "'" + found + "', expected one of " + joined(words));
        return found;
    }

    std::vector<std::pair<std::string, std::string>> texts(const std::string& key) const {
        std::vector<std::pair<std::string, std::string>> pairs;
        const Node* node = root_.find(key);
        if (!node) return pairs;
        if (!node->is(Node::Kind::object)) refuse(key, "expected an object of texts");
        for (const Member& member : node->members) {
            if (!member.value.is(Node::Kind::text) || member.value.text.empty() ||
                member.key.empty())
                refuse(key + "/" + member.key, "expected a text that is not empty");
            pairs.emplace_back(member.key, member.value.text);
        }
        return pairs;
    }

    std::string checked_meaning(const std::string& heading, const std::string& meaning) const {
        if (is_list_meaning(meaning)) return meaning;
        refuse("columns/" + heading,
               "'" + meaning + "', expected one of " + joined(list_meanings()));
    }

    std::string checked_field(const std::string& key, const std::string& member,
                              std::string_view field, const std::string& value) const {
        Part scratch;
        if (!find_part_field(field)->read(scratch, value))
            refuse(key + "/" + member,
                   "'" + value + "', expected " + expectation(*find_part_field(field)));
        return value;
    }

    std::string checked_fixed(const std::string& meaning, const std::string& value) const {
        if (meaning == "price_unit") {
            if (!value.empty() && value.size() < 6 && value[0] != '0' &&
                std::all_of(value.begin(), value.end(),
                            [](char c) { return c >= '0' && c <= '9'; }))
                return meaning;
            refuse("fixed/price_unit", "'" + value + "', expected pieces such as 100");
        }
        if (!holds(fixed_fields, meaning))
            refuse("fixed/" + meaning, "expected one of " + joined(fixed_fields) + ", price_unit");
        checked_field("fixed", meaning, meaning, value);
        return meaning;
    }

    std::string name_;
    const Node& root_;
};

void put_text(Node& root, const char* key, const std::string& text) {
    if (!text.empty()) root.member(key) = Node::make_text(text);
}

template <class Pairs> void put_pairs(Node& root, const char* key, const Pairs& pairs) {
    if (pairs.empty()) return;
    Node object = Node::make_object();
    for (const auto& [first, second] : pairs) object.member(first) = Node::make_text(second);
    root.member(key) = std::move(object);
}

} // namespace

PriceMap read_price_map(const std::string& name, const std::string& text) {
    return MapReader(name, parse_json(name, text).root).read();
}

std::string price_map_text(const PriceMap& map) {
    Node root = Node::make_object();
    put_text(root, "format", std::string(format));
    put_text(root, "maker", map.maker);
    put_text(root, "currency", map.currency);
    put_text(root, "decimal", map.decimal);
    put_text(root, "dates", map.dates);
    put_text(root, "lead_unit", map.lead_unit);
    Node columns = Node::make_object();
    for (const ListColumn& each : map.columns)
        columns.member(each.heading) = Node::make_text(each.meaning);
    if (!map.columns.empty()) root.member("columns") = std::move(columns);
    put_pairs(root, "fixed", map.fixed);
    put_pairs(root, "keys", map.keys);
    put_pairs(root, "states", map.states);
    return json_text(root);
}

} // namespace backplate
