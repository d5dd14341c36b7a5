#include "catalog/library/part_rows.h"

#include <string_view>
#include <unordered_map>

#include "catalog/library/cell_text.h"
#include "pricing/book/part_fields.h"
#include "pricing/values/faults.h"

namespace backplate {

const VersionedTable part_table{
    "SELECT id, '', key, 0.0, cells FROM parts WHERE issue_to IS NULL ORDER BY key",
    "INSERT INTO parts (key, issue_from, change_set, cells) VALUES (?3, ?1, ?1, ?5)",
    "UPDATE parts SET issue_to = ?1 WHERE id = ?2",
    "SELECT coalesce(max(max(issue_from, coalesce(issue_to, 0))), 0) FROM parts"};

std::vector<VersionedRow> part_rows(const std::vector<Part>& parts) {
    std::vector<VersionedRow> rows;
    for (const Part& part : parts) {
        Cells cells;
        for (const PartField& field : part_fields())
            cells[std::string(field.key)] = field.write(part);
        rows.push_back({"", part.key, 0, cell_text(cells)});
    }
    return rows;
}

std::vector<Part> parts_of(const std::vector<VersionedRow>& rows) {
    std::unordered_map<std::string_view, const PartField*> fields;
    for (const PartField& field : part_fields()) fields.emplace(field.key, &field);
    std::vector<Part> parts;
    parts.reserve(rows.size());
    for (const VersionedRow& row : rows) {
        Part& part = parts.emplace_back();
        for (const auto& [key, cell] : list_cells(row.cells)) {
            const auto found = fields.find(key);
            const PartField* field = found == fields.end() ? nullptr : found->second;
            if (!field || !field->read(part, cell))
                throw OutsideFault("part " + row.key + ", field " + key + ": '" + cell +
                                   "' cannot be read; expected " +
                                   (field ? expectation(*field) : "a field of a part"));
        }
        if (part.key != row.key)
            throw OutsideFault("part " + row.key + ": its cells name '" + part.key + "'");
    }
    return parts;
}

} // namespace backplate
