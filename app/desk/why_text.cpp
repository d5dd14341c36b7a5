#include "app/desk/why_text.h"

#include <algorithm>
#include <charconv>

#include "app/desk/entry_check.h"
#include "reports/wording.h"

namespace backplate {
namespace {

std::optional<std::size_t> index_after(const std::string& pointer, const std::string& lead) {
    std::size_t index = 0;
    if (!pointer.starts_with(lead)) return std::nullopt;
    const char* first = pointer.data() + lead.size();
    const auto [end, fault] = std::from_chars(first, pointer.data() + pointer.size(), index);
    return fault == std::errc{} ? std::optional(index) : std::nullopt;
}

/// Without the unit at the end of a key: "inside w" -> "inside".
std::string without_unit(std::string words) {
    for (const char* unit : {" w", " c", " a", " mm", " ka"})
        if (words.ends_with(unit)) return words.substr(0, words.size() - std::string(unit).size());
    return words;
}

/// What follows the index in "/bill/3/unit_net".
std::string rest_after(const std::string& pointer, const std::string& lead) {
    const std::size_t slash = pointer.find('/', lead.size());
    return slash == std::string::npos ? std::string()
                                      : without_unit(place_words(pointer.substr(slash)));
}

/// "21.2301 A": long fractions are cut for reading, exact ones stay.
std::string value_text(const std::string& value, const std::string& unit, const FigureText& text) {
    constexpr std::size_t most_places = 6;
    const std::size_t point = value.find('.');
    std::string said = value;
    if (point != std::string::npos && value.size() - point > most_places + 1) {
        double number = 0;
        const auto [end, fault] =
            std::from_chars(value.data(), value.data() + value.size(), number);
        if (fault == std::errc{}) said = text.number(number, 4);
    }
    return unit.empty() ? said : said + " " + unit;
}

const char* from_words(BasisInput::From from) {
    switch (from) {
    case BasisInput::From::request: return "request";
    case BasisInput::From::rule: return "rule";
    case BasisInput::From::part: return "part";
    default: return "figure";
    }
}

} // namespace

std::vector<const BasisEntry*> basis_below(const Estimate& estimate, const std::string& pointer) {
    std::vector<const BasisEntry*> found;
    for (const BasisEntry& entry : estimate.basis)
        if (entry.figure == pointer || entry.figure.starts_with(pointer + "/"))
            found.push_back(&entry);
    return found;
}

std::string figure_words(const std::string& pointer, const Estimate& estimate) {
    if (const auto box = index_after(pointer, "/boxes/"); box && *box < estimate.boxes.size())
        return estimate.boxes[*box].name + ": " + rest_after(pointer, "/boxes/");
    if (const auto line = index_after(pointer, "/bill/"); line && *line < estimate.bill.size()) {
        const BillLine& bill = estimate.bill[*line];
        return (bill.part.empty() ? bill.description : bill.part) + ": " +
               rest_after(pointer, "/bill/");
    }
    if (const auto at = index_after(pointer, "/labour/"); at && *at < estimate.labour.size())
        return plain_words(estimate.labour[*at].activity) + ": " + rest_after(pointer, "/labour/");
    if (const auto at = index_after(pointer, "/points/"); at && *at < estimate.points.size())
        return estimate.points[*at].signal + " in " + estimate.points[*at].box + ": " +
               rest_after(pointer, "/points/");
    if (const auto at = index_after(pointer, "/ratios/"); at && *at < estimate.ratios.size())
        return plain_words(estimate.ratios[*at].name);
    return plain_words(place_words(pointer));
}

TextRows basis_rows(const std::vector<const BasisEntry*>& entries, const Estimate& estimate,
                    const FigureText& text) {
    TextRows rows;
    for (const BasisEntry* entry : entries)
        rows.push_back(
            {figure_words(entry->figure, estimate), value_text(entry->value, entry->unit, text)});
    return rows;
}

TextRows input_rows(const BasisEntry& entry, const Estimate& estimate, const FigureText& text) {
    TextRows rows;
    for (std::size_t i = 0; i < entry.inputs.size(); ++i) {
        const BasisInput& input = entry.inputs[i];
        const std::string name = input.from == BasisInput::From::figure
                                     ? figure_words(input.path, estimate)
                                 : input.from == BasisInput::From::request ? place_words(input.path)
                                                                           : input.path;
        rows.push_back({input_letter(i), name, value_text(input.value, input.unit, text),
                        from_words(input.from)});
    }
    return rows;
}

TextRows rule_rows(const std::string& rule, const RuleTables& tables) {
    const std::size_t slash = rule.find('/');
    if (slash == std::string::npos) return {};
    const RuleTable* table = tables.find(rule.substr(0, slash));
    const TableSpec* spec = find_table_spec(rule.substr(0, slash));
    if (!table || !spec) return {};
    const auto row = std::ranges::find(table->rows, rule.substr(slash + 1), &RuleRow::key);
    if (row == table->rows.end()) return {};
    const auto columns = spec->values ? value_columns() : spec->columns;
    TextRows rows;
    for (std::size_t i = 0; i < std::min(columns.size(), row->cells.size()); ++i)
        if (!row->cells[i].empty())
            rows.push_back(
                {std::string(columns[i].key), row->cells[i], std::string(columns[i].explanation)});
    rows.push_back({"source", row->source, row->confidence});
    if (!row->note.empty()) rows.push_back({"note", row->note, ""});
    return rows;
}

std::string default_rule(const std::string& pointer, const RuleTables& tables) {
    const RuleTable* table = tables.find("defaults");
    for (std::string key = default_key(pointer); table && !key.empty();) {
        if (std::ranges::find(table->rows, key, &RuleRow::key) != table->rows.end())
            return "defaults/" + key;
        const auto end = key.find_last_of(".[");
        key.resize(end == std::string::npos ? 0 : end);
    }
    return {};
}

} // namespace backplate
