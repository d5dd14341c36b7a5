#include "catalog/library/rule_rows.h"

#include <algorithm>
#include <functional>
#include <map>

#include "catalog/library/cell_text.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Ordinals = std::map<RowName, double>;

/// The ordinals of a table's rows: kept ones that ascend, and equal steps between them for the
/// others.
std::vector<double> ordinals_of(const RuleTable& table, const Ordinals& known) {
    std::vector<double> ordinals;
    std::size_t unplaced = 0;
    double last = 0;
    const auto place_until = [&](double next) {
        const double step = (next - last) / static_cast<double>(unplaced + 1);
        for (std::size_t i = 1; i <= unplaced; ++i)
            ordinals.push_back(last + step * static_cast<double>(i));
        unplaced = 0;
    };
    for (const RuleRow& row : table.rows) {
        const auto old = known.find({table.name, row.key});
        if (old == known.end() || old->second <= last) {
            ++unplaced;
            continue;
        }
        place_until(old->second);
        ordinals.push_back(last = old->second);
    }
    place_until(last + static_cast<double>(unplaced) + 1);
    return ordinals;
}

/// Numbers the whole table anew where no double is left between two ordinals.
void make_ascending(std::vector<double>& ordinals) {
    if (std::adjacent_find(ordinals.begin(), ordinals.end(), std::greater_equal<>()) ==
        ordinals.end())
        return;
    for (std::size_t i = 0; i < ordinals.size(); ++i) ordinals[i] = static_cast<double>(i + 1);
}

std::string cells_of(const RuleRow& row, const TableSpec& spec) {
    Cells cells{{"source", row.source},
                {"confidence", row.confidence},
                {"note", row.note},
                {"active", row.active ? "yes" : "no"}};
    for (std::size_t i = 0; i < spec.columns.size(); ++i)
        cells[std::string(spec.columns[i].key)] = row.cells[i];
    return cell_text(cells);
}

std::string taken(Cells& cells, std::string_view column) {
    const auto found = cells.find(column);
    if (found == cells.end()) return {};
    std::string cell = std::move(found->second);
    cells.erase(found);
    return cell;
}

RuleRow row_of(const VersionedRow& stored, const TableSpec& spec) {
    Cells cells = read_cells(stored.cells);
    RuleRow row{stored.key, {}, "", "", "", true};
    for (const ColumnSpec& column : spec.columns) row.cells.push_back(taken(cells, column.key));
    row.source = taken(cells, "source");
    row.confidence = taken(cells, "confidence");
    row.note = taken(cells, "note");
    row.active = taken(cells, "active") == "yes";
    if (spec.name == "defaults") taken(cells, "support"); // earlier libraries hold this column
    if (!cells.empty())
        throw OutsideFault("table " + stored.table + ", row " + stored.key + ": has no column '" +
                           cells.begin()->first + "'");
    return row;
}

} // namespace

const VersionedTable rule_table{
    "SELECT id, table_name, key, ordinal, cells FROM rule_rows WHERE issue_to IS NULL "
    "ORDER BY table_name, ordinal",
    "INSERT INTO rule_rows (table_name, key, ordinal, issue_from, change_set, cells) "
    "VALUES (?2, ?3, ?4, ?1, ?1, ?5)",
    "UPDATE rule_rows SET issue_to = ?1 WHERE id = ?2",
    "SELECT coalesce(max(max(issue_from, coalesce(issue_to, 0))), 0) FROM rule_rows"};

std::vector<VersionedRow> rule_rows(const RuleTables& tables,
                                    const std::vector<VersionedRow>& open) {
    Ordinals known;
    for (const VersionedRow& row : open) known.emplace(RowName{row.table, row.key}, row.ordinal);
    std::vector<VersionedRow> rows;
    for (const RuleTable& table : tables.tables) {
        const TableSpec* spec = find_table_spec(table.name);
        if (!spec) throw BadInput("table " + table.name + ": is no rule table");
        auto ordinals = ordinals_of(table, known);
        make_ascending(ordinals);
        for (std::size_t i = 0; i < table.rows.size(); ++i)
            rows.push_back(
                {table.name, table.rows[i].key, ordinals[i], cells_of(table.rows[i], *spec)});
    }
    return rows;
}

RuleTables rules_of(const std::vector<VersionedRow>& rows) {
    RuleTables tables;
    for (const TableSpec& spec : rule_schema()) tables.table(spec.name);
    for (const VersionedRow& row : rows) {
        const TableSpec* spec = find_table_spec(row.table);
        if (!spec) throw OutsideFault("table " + row.table + ": is no rule table");
        tables.table(row.table).rows.push_back(row_of(row, *spec));
    }
    return tables;
}

} // namespace backplate
