#include <algorithm>

#include "pricing/book/part_fields.h"
#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

void read_materials(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("materials"))
        book.materials.push_back({row.key(), row.rule("emissivity_out", ""),
                                  row.rule("emissivity_in", ""), row.rule("u_low", "W/(m²K)"),
                                  row.rule("u_high", "W/(m²K)"), row.rule("wall_mm", "mm"),
                                  row.rule("wall_conductivity", "W/(m K)")});
}

/// Rows "finish NAME" say what a finish absorbs.
void read_solar(RuleReader& reader, RuleBook& book) {
    const std::string_view prefix = "finish ";
    book.solar.irradiance = reader.required("solar", "irradiance");
    book.solar.outer_film = reader.required("solar", "outer_film");
    book.solar.unknown_finish = reader.required("solar", "finish unknown");
    for (const RowView& row : reader.rows("solar"))
        if (row.key().starts_with(prefix))
            book.solar.finishes[row.key().substr(prefix.size())] = row.value_rule();
}

void read_faces(RuleReader& reader, RuleBook& book) {
    book.faces.top = reader.required("faces", "top");
    book.faces.top_covered = reader.required("faces", "top_covered");
    book.faces.side = reader.required("faces", "side");
    book.faces.side_covered = reader.required("faces", "side_covered");
    book.faces.floor = reader.required("faces", "floor");
}

bool is_stage(const std::string& word) {
    const auto& stages = find_part_field("stage")->words;
    return std::find(stages.begin(), stages.end(), word) != stages.end();
}

bool is_mark(const std::string& mark) {
    Part part;
    return find_part_field("protection")->read(part, mark);
}

void read_site_limits(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("site_limits")) {
        SiteLimit limit{row.key(), row.list("materials"), row.list("no_stages"),
                        row.list("least_marks", '|')};
        for (const std::string& mark : limit.marks)
            if (!is_mark(mark))
                reader.fault("site_limits", row.key(), "least_marks",
                             "'" + mark + "', expected marks such as IP44|Type 3R");
        for (const std::string& material : limit.materials)
            if (!book.find_material(material))
                reader.fault("site_limits", row.key(), "materials",
                             "'" + material + "', expected rows of the table materials");
        for (const std::string& stage : limit.no_stages)
            if (!is_stage(stage))
                reader.fault("site_limits", row.key(), "no_stages",
                             "'" + stage + "', expected " + expectation(*find_part_field("stage")));
        book.site_limits.push_back(std::move(limit));
    }
}

void read_type_coverage(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("type_coverage"))
        book.type_coverage.emplace(row.key(), row.list("covers"));
    for (const auto& [type, covered] : book.type_coverage)
        for (const std::string& other : covered)
            if (!book.type_coverage.contains(other))
                reader.fault("type_coverage", type, "covers",
                             "'" + other + "', expected rows of this table");
}

} // namespace

void read_site(RuleReader& reader, RuleBook& book) {
    read_materials(reader, book);
    read_solar(reader, book);
    read_faces(reader, book);
    read_site_limits(reader, book);
    read_type_coverage(reader, book);
}

} // namespace backplate
