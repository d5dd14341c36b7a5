#include <algorithm>
#include <array>

#include "pricing/book/part_fields.h"
#include "pricing/book/rule_reader.h"
#include "pricing/cost/conditions.h"

namespace backplate {
namespace {

OptionalRule rule_in(const RowView& row, std::string_view column, const char* unit) {
    if (!row.number(column)) return std::nullopt;
    return row.rule(column, unit);
}

bool is_kind(const std::string& word) {
    const auto kinds = part_kinds();
    return std::find(kinds.begin(), kinds.end(), word) != kinds.end();
}

void check_small_part(RuleReader& reader, const RuleBook& book, const SmallPartRow& row) {
    const auto fault = [&](const char* column, const std::string& value, const char* expected) {
        reader.fault("small_parts", row.key, column, "'" + value + "', expected " + expected);
    };
    if (!is_kind(row.part_kind)) fault("part_kind", row.part_kind, "a kind of parts");
    if (!known_condition(book, row.condition))
        fault("condition", row.condition, "always, or terms as practice=iec joined by \" and \"");
    const bool cable = row.driver == "cable";
    if (cable != (row.from && row.up_to))
        fault("from_mm", row.from ? row.from->text() : "",
              "from_mm and up_to_mm for the driver cable, and for no other");
    else if (cable && row.from->number() > row.up_to->number())
        fault("from_mm", row.from->text(), "no more than up_to_mm");
    if (row.of_sundries && book.sundries_share(row.group))
        fault("of_sundries", row.of_sundries->text(), "one row of the group with a share");
}

void read_rows(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("small_parts")) {
        SmallPartRow own{row.key(),
                         row.cell("part_kind"),
                         row.cell("function"),
                         row.cell("driver"),
                         row.rule("pieces", "pieces"),
                         row.rule("per", row.cell("driver")),
                         rule_in(row, "from_mm", "mm"),
                         rule_in(row, "up_to_mm", "mm"),
                         row.cell("condition"),
                         row.cell("group"),
                         rule_in(row, "of_sundries", "%")};
        check_small_part(reader, book, own);
        book.small_parts.push_back(std::move(own));
    }
    std::stable_sort(book.small_parts.begin(), book.small_parts.end(),
                     [](const SmallPartRow& a, const SmallPartRow& b) {
                         if (!a.up_to || !b.up_to) return !a.up_to && b.up_to.has_value();
                         return a.up_to->number() < b.up_to->number();
                     });
}

void read_cables(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("cables")) {
        const auto section = row.number("section_mm2");
        if (section.has_value() == row.number("cores").has_value())
            reader.fault("cables", row.key(), "cores", "expected for a channel, not for a feed");
        book.cables.push_back({row.key(), section ? section->number() : 0, row.rule("cores", ""),
                               row.rule("core_mm", "mm"), row.rule("sheath_mm", "mm"),
                               row.rule("bridged", "")});
    }
    std::stable_sort(
        book.cables.begin(), book.cables.end(),
        [](const CableRow& a, const CableRow& b) { return a.section_mm2 < b.section_mm2; });
}

void read_bundles(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("cable_bundles")) {
        const double cores = row.number("cores")->number();
        book.bundles.push_back({static_cast<int>(cores), row.rule("factor", "core diameters")});
    }
    std::stable_sort(book.bundles.begin(), book.bundles.end(),
                     [](const BundleRow& a, const BundleRow& b) { return a.cores < b.cores; });
}

} // namespace

void read_small_parts(RuleReader& reader, RuleBook& book) {
    read_rows(reader, book);
    read_cables(reader, book);
    read_bundles(reader, book);
}

} // namespace backplate
