#include "catalog/library/used_rows.h"

#include <algorithm>
#include <tuple>

#include "catalog/library/part_rows.h"
#include "catalog/library/rule_rows.h"

namespace backplate {
namespace {

constexpr const char* parts_name = "parts";

} // namespace

std::vector<UsedRow> used_rows(const std::set<std::string>& part_keys,
                               const std::set<std::pair<std::string, std::string>>& rule_names,
                               const std::vector<Part>& parts, const RuleTables& rules) {
    std::vector<Part> used;
    std::ranges::copy_if(parts, std::back_inserter(used),
                         [&](const Part& part) { return part_keys.contains(part.key); });
    std::vector<UsedRow> rows;
    for (VersionedRow& row : part_rows(used))
        rows.push_back({parts_name, std::move(row.key), std::move(row.cells)});
    for (VersionedRow& row : rule_rows(rules, {}))
        if (rule_names.contains({row.table, row.key}))
            rows.push_back({std::move(row.table), std::move(row.key), std::move(row.cells)});
    std::ranges::sort(rows, {}, [](const UsedRow& row) { return std::tie(row.table, row.key); });
    return rows;
}

void require_readable(const std::vector<UsedRow>& rows) {
    std::vector<VersionedRow> parts, rules;
    for (const UsedRow& row : rows)
        (row.table == parts_name ? parts : rules)
            .push_back({row.table == parts_name ? "" : row.table, row.key, 0, row.cells});
    parts_of(parts);
    rules_of(rules);
}

} // namespace backplate
