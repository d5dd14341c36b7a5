#include "pricing/price_list/list_rules.h"

#include <algorithm>
#include <array>

#include "pricing/takeoff/plain_text.h"

namespace backplate {
namespace {

constexpr auto meanings = std::array<std::string_view, 16>{
    "part",      "alias",         "maker",      "description",      "list",        "net",
    "currency",  "price_unit",    "price_date", "discount_percent", "valid_until", "pack",
    "lead_days", "minimum_order", "state",      "successor"};

std::string cell_of(const RuleTables& tables, std::string_view table, std::string_view row,
                    std::size_t column) {
    if (const RuleTable* found = tables.find(table))
        for (const RuleRow& each : found->rows)
            if (each.active && each.key == row && column < each.cells.size())
                return each.cells[column];
    return {};
}

} // namespace

std::span<const std::string_view> list_meanings() { return meanings; }

bool is_list_meaning(std::string_view word) {
    return std::find(meanings.begin(), meanings.end(), word) != meanings.end();
}

bool ListRules::says(std::string_view meaning, std::string_view text) const {
    const Squeezed wanted = squeeze(text);
    return std::any_of(spellings.begin(), spellings.end(), [&](const ListSpelling& each) {
        return each.meaning == meaning && squeeze(each.text).text == wanted.text;
    });
}

ListRules read_list_rules(const RuleTables& tables) {
    ListRules rules;
    if (const RuleTable* table = tables.find("price_list_spellings"))
        for (const RuleRow& row : table->rows)
            if (row.active && row.cells.size() > 1)
                rules.spellings.push_back({row.cells[0], row.cells[1]});
    if (const RuleTable* table = tables.find("currencies"))
        for (const RuleRow& row : table->rows)
            if (row.active) rules.currencies.insert(row.key);
    rules.currency = cell_of(tables, "price_policy", "currency", 0);
    rules.dearer = Percent::parse(cell_of(tables, "price_list_limits", "dearer_percent", 0));
    rules.cheaper = Percent::parse(cell_of(tables, "price_list_limits", "cheaper_percent", 0));
    rules.pack = Percent::parse(cell_of(tables, "price_list_limits", "pack_percent", 0));
    return rules;
}

} // namespace backplate
