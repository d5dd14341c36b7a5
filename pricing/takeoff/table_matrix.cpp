// One column per kind of point: numbers, marks or tags in the cells.
#include <algorithm>
#include <array>

#include "pricing/takeoff/table_reader.h"

namespace backplate {
namespace {

constexpr int most_pieces = 100'000;

std::string cell_at(const Cells& cells, std::size_t column) {
    return column < cells.size() ? cells[column] : std::string{};
}

} // namespace

/// Signs such as a tick have no letters, so they are compared as they are written.
bool TableReader::is_mark(const std::string& cell) const {
    return words_.lexicon.is(squeeze(cell), "mark") || words_.lexicon.is_written(cell, "mark");
}

bool TableReader::says_nothing(const RowCase& row, const KindColumn& column) const {
    if (is_mark(cell_at(row.cells, column.column))) return false;
    const Squeezed text = squeeze(cell_at(row.cells, column.column));
    return text.empty() || words_.lexicon.is(text, "none") || text.text == "0";
}

/// Adds what a column says about the row; a doubt in one column is a doubt of the row.
void TableReader::add_kind(RowCase& row, const KindColumn& column, int pieces,
                           const std::string& tag) {
    // A column that names the signal itself needs no electrics from beside it.
    const bool basic = column.kind.size() == 2 && column.kind != "TC";
    const std::string said = basic ? row.texts.electrics + " " + row.texts.remarks : std::string();
    Verdict verdict = words_.verdict({column.heading, said, {}});
    const bool beside_the_point =
        verdict.is == Verdict::Is::bus || verdict.reason == "contradiction";
    if (beside_the_point) verdict = words_.verdict({column.heading, {}, {}});
    if (verdict.is == Verdict::Is::question) {
        row.verdict.is = Verdict::Is::question;
        row.verdict.reason = verdict.reason;
        row.verdict.proposes = verdict.proposes;
    }
    for (const auto& [signal, count] : verdict.signals) {
        row.verdict.signals[signal] += count * pieces;
        if (!tag.empty()) row.tags.emplace_back(signal, tag);
    }
    row.of_column[column.title] += pieces * row.quantity.pieces;
}

/// What a cell of a column says, added to the row. False: the row is refused.
bool TableReader::take_kind_cell(RowCase& row, const KindColumn& column, const std::string& cell) {
    if (says_nothing(row, column)) return true;
    if (tags_in_cells_) return add_kind(row, column, 1, cell), true;
    if (is_mark(cell)) {
        marks_ = true;
        return add_kind(row, column, 1, {}), true;
    }
    const Quantity number = read_quantity(cell, words_.lexicon);
    if (!number.refusal.empty()) return ledger_.refuse(number.refusal), false;
    const int pieces = number.stated ? number.pieces : 0;
    if (pieces * std::int64_t{row.quantity.pieces} > most_pieces)
        return ledger_.refuse("qty_not_integer"), false;
    if (pieces > 0) add_kind(row, column, pieces, {});
    return true;
}

bool TableReader::take_kind_cells(RowCase& row) {
    row.verdict = {Verdict::Is::point, {}, false, {}, {}};
    return std::ranges::all_of(heading_.kinds, [&](const KindColumn& column) {
        return column.kind == "soft" ||
               take_kind_cell(row, column, cell_at(row.cells, column.column));
    });
}

/// A row without a wired point: only soft ones, a bus in its remarks, all zero, or nothing said.
bool TableReader::leave_matrix_row_out(RowCase& row) {
    if (!row.verdict.signals.empty() || row.verdict.is == Verdict::Is::question) return false;
    const bool any_soft = std::ranges::any_of(heading_.kinds, [&](const KindColumn& column) {
        return column.kind == "soft" && !says_nothing(row, column);
    });
    if (any_soft) return ledger_.leave_out("soft"), true;
    if (!words_.lexicon.words_said(row.remarks, "bus").empty()) {
        const std::string& name =
            row.texts.description.empty() ? row.texts.tag : row.texts.description;
        ledger_.add_note(
            {"note", {}, name + " has no mark in any column and a bus comment: not counted", {}});
        return ledger_.leave_out("soft"), true;
    }
    const bool says_none = std::ranges::any_of(heading_.kinds, [&](const KindColumn& column) {
        return !cell_at(row.cells, column.column).empty();
    });
    if (says_none) return ledger_.warn("qty_zero"), ledger_.leave_out("zero"), true;
    row.verdict = {Verdict::Is::question, {}, false, "type_blank", {}};
    return false;
}

void TableReader::read_matrix_row(RowCase& row) {
    if (!row.quantity.refusal.empty()) return ledger_.refuse(row.quantity.refusal);
    if (row.quantity.pieces == 0) return ledger_.warn("qty_zero"), ledger_.leave_out("zero");
    if (!take_kind_cells(row)) return;
    const bool deleted = words_.lexicon.says(row.remarks, "deleted");
    const auto was = deleted         ? Tally::Was::deleted
                     : is_spare(row) ? Tally::Was::spare
                                     : Tally::Was::counted;
    for (const auto& [title, pieces] : row.of_column) tally_.add_kind(title, was, pieces);
    if (deleted) return ledger_.warn("deleted"), ledger_.leave_out("del");
    if (!leave_matrix_row_out(row)) settle(row);
}

} // namespace backplate
