#include <algorithm>

#include "pricing/book/part_fields.h"
#include "pricing/book/rule_reader.h"
#include "pricing/cost/conditions.h"

namespace backplate {
namespace {

void check_kind(RuleReader& reader, std::string_view table, const RowView& row,
                std::string_view column, const std::string& kind) {
    const auto kinds = part_kinds();
    if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end())
        reader.fault(table, row.key(), column, "'" + kind + "', expected a kind of parts");
}

void read_surge(RuleReader& reader, RuleBook& book) {
    const std::string_view table = "surge_protection";
    for (const RowView& row : reader.rows(table)) {
        SurgeRow own{row.key(), row.cell("condition"), row.cell("part_kind"),
                     row.list("functions", '|'), std::nullopt};
        if (row.number("breaker_a")) own.breaker_a = row.rule("breaker_a", "A");
        check_kind(reader, table, row, "part_kind", own.part_kind);
        if (!known_condition(book, own.condition))
            reader.fault(table, row.key(), "condition",
                         "'" + own.condition +
                             "', expected always, or terms as place!=indoor joined by \" and \"");
        book.surge_protection.push_back(std::move(own));
    }
}

void read_approvals(RuleReader& reader, RuleBook& book) {
    const std::string_view table = "approval_parts";
    for (const RowView& row : reader.rows(table)) {
        ApprovalRow own{row.key(), row.cell("approval"), row.list("kinds"), row.flag("pass_over")};
        for (const std::string& kind : own.kinds) check_kind(reader, table, row, "kinds", kind);
        const bool known =
            std::any_of(book.words.begin(), book.words.end(), [&](const WordRow& word) {
                return word.key == "boxes[].site.approvals" && word.word == own.approval;
            });
        if (!known)
            reader.fault(table, row.key(), "approval",
                         "'" + own.approval + "', expected a word of boxes[].site.approvals");
        book.approval_parts.push_back(std::move(own));
    }
}

} // namespace

void read_site_parts(RuleReader& reader, RuleBook& book) {
    read_surge(reader, book);
    read_approvals(reader, book);
}

} // namespace backplate
