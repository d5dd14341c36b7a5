#include "pricing/takeoff/table_reader.h"

#include <algorithm>
#include <utility>

#include "pricing/takeoff/tags.h"

namespace backplate {
namespace {

constexpr std::size_t most_verdicts = 4'096;
constexpr int least_running_numbers = 4;
constexpr std::size_t rows_for_layout = 1'000; ///< rows by which tags in cells are known

Cells cleaned(const Cells& cells) {
    Cells texts;
    texts.reserve(cells.size());
    for (const std::string& cell : cells) texts.push_back(clean_text(cell));
    while (!texts.empty() && texts.back().empty()) texts.pop_back();
    return texts;
}

} // namespace

ListWords::ListWords(const RuleBook& book, const ListAnswers& given)
    : rules(book), answers(given), lexicon(book.spellings), headings(book.headings, lexicon) {}

const Verdict& ListWords::verdict(const KindTexts& texts) {
    if (verdicts_.size() >= most_verdicts) verdicts_.clear();
    const std::string key = texts.type + '\n' + texts.electrics;
    auto found = verdicts_.find(key);
    if (found == verdicts_.end())
        found = verdicts_.emplace(key, classify({texts.type, texts.electrics, {}}, lexicon)).first;
    if (found->second.is != Verdict::Is::question || texts.address.empty()) return found->second;
    return verdicts_.insert_or_assign(key + '\n' + texts.address, classify(texts, lexicon))
        .first->second;
}

TableReader::TableReader(const ListSheet& sheet, Heading heading, ListWords& words, Ledger& ledger)
    : sheet_(sheet), heading_(std::move(heading)), words_(words), ledger_(ledger), fields_(0) {
    if (heading_.headless) fields_ = heading_.end_column;
    for (std::size_t r = heading_.row; !heading_.headless && r <= heading_.last_row; ++r) {
        heading_cells_.push_back(cleaned(sheet.rows[r].cells));
        fields_ = std::max(fields_, sheet.rows[r].cells.size());
        table_.header_rows.push_back(sheet.rows[r].number);
    }
    table_.sheet = sheet.name;
    table_.first_column = static_cast<int>(heading_.first_column) + 1;
    if (!heading_cells_.empty())
        table_.quantity_column = heading_.text(heading_cells_.front(), Role::quantity);
    for (const TallCell& tall : sheet.tall_cells) tall_by_column_[tall.column].push_back(tall);
    for (auto& [column, cells] : tall_by_column_)
        std::ranges::sort(cells, {}, &TallCell::first_row);
    if (heading_.of_one_kind)
        section_kind_ = sheet.name;
    else if (!words_.lexicon.is(squeeze(sheet.name), "plain_sheet"))
        sheet_panel_ = sheet.name;
    for (std::size_t r = 0; r < heading_.row && section_panel_.empty(); ++r)
        section_panel_ = panel_name(panel_of_title(sheet.rows[r].cells, words_.lexicon));
    panel_by_section_ = !section_panel_.empty();
    take_type_that_says_kinds();
    drop_running_numbers();
    tags_in_cells_ = heading_.is_matrix() && cells_are_tags();
}

bool TableReader::cells_are_tags() const {
    int tags = 0, others = 0;
    const std::size_t end = std::min(sheet_.rows.size(), heading_.last_row + rows_for_layout);
    for (std::size_t r = heading_.last_row + 1; r < end; ++r)
        for (const KindColumn& column : heading_.kinds) {
            const Cells& cells = sheet_.rows[r].cells;
            const std::string cell =
                column.column < cells.size() ? clean_text(cells[column.column]) : "";
            const Squeezed text = squeeze(cell);
            if (is_mark(cell)) ++others;
            if (text.empty() || is_mark(cell) || words_.lexicon.is(text, "none")) continue;
            const bool number = read_quantity(cell, words_.lexicon).refusal != "qty_not_integer";
            ++(number ? others : tags);
        }
    return tags > others;
}

std::string TableReader::panel_name(const std::string& text) {
    if (text.empty() || words_.lexicon.is(squeeze(text), "filler")) return {};
    return panel_names_.try_emplace(lower_ascii(text), text).first->second;
}

/// The cell merged over several rows that holds this row of the column; null where none does.
const TallCell* TableReader::tall_cell_at(std::size_t column, int row) const {
    const auto tall = tall_by_column_.find(column);
    if (tall == tall_by_column_.end()) return nullptr;
    const auto after = std::ranges::upper_bound(tall->second, row, {}, &TallCell::first_row);
    if (after == tall->second.begin()) return nullptr;
    const TallCell& cell = *std::prev(after);
    return row <= cell.last_row ? &cell : nullptr;
}

bool TableReader::is_column_of(Role role, std::size_t column) const {
    const auto& columns = heading_.columns[static_cast<std::size_t>(role)];
    return std::ranges::find(columns, column) != columns.end();
}

/// Cells merged over several rows hold in each of them, but for quantities.
Cells TableReader::filled_down(const ListRow& row, Cells cells) {
    for (const auto& [column, tall] : tall_by_column_) {
        const TallCell* cell = tall_cell_at(column, row.number);
        if (!cell || row.number == cell->first_row || is_column_of(Role::quantity, column))
            continue;
        const ListRow& above = sheet_.rows[static_cast<std::size_t>(cell->first_row) - 1];
        const bool in_heading =
            !heading_.headless && static_cast<std::size_t>(above.number) <= heading_.last_row + 1;
        if (in_heading || column >= above.cells.size() ||
            (column < cells.size() && !cells[column].empty()))
            continue;
        cells.resize(std::max(cells.size(), column + 1));
        cells[column] = clean_text(above.cells[column]);
        merged_panel_ |= is_column_of(Role::panel, column);
    }
    return cells;
}

RowTexts TableReader::texts_of(const Cells& cells) {
    const auto text = [&](Role role) { return heading_.text(cells, role); };
    RowTexts texts{text(Role::tag),       text(Role::description),       text(Role::type),
                   text(Role::electrics), panel_name(text(Role::panel)), text(Role::remarks),
                   text(Role::address),   text(Role::quantity),          text(Role::device)};
    if (!heading_.has(Role::panel))
        texts.panel = section_panel_.empty() ? sheet_panel_ : section_panel_;
    if (words_.lexicon.is(squeeze(texts.tag), "filler")) texts.tag.clear();
    if (squeeze(texts.type).empty()) texts.type = section_kind_;
    if (texts.type.empty() && !heading_.has(Role::type)) texts.type = heading_.group;
    return texts;
}

void TableReader::read(const ListRow& row) {
    ledger_.begin_row(row.number);
    const Cells own = cleaned(row.cells);
    if (read_text_row(row, own) || begin_again(row, own)) return;
    const Cells cells = filled_down(row, own);
    RowCase one{row, cells, texts_of(cells), {}, {}, {}, {}, {}};
    one.remarks = squeeze(one.texts.remarks);
    for (const std::string* text : {&one.texts.electrics, &one.texts.quantity, &one.texts.remarks})
        decimal_comma_ = decimal_comma_ || has_decimal_comma(*text);
    if (is_total(cells, one.texts)) return read_total(cells, one.texts);
    if (sheet_.delimited && own.size() > fields_) return ledger_.refuse("too_many_fields");
    if (refuse_flaws(one)) return;
    one.quantity = read_quantity(one.texts.quantity, words_.lexicon);
    if (heading_.is_matrix())
        read_matrix_row(one);
    else
        read_point_row(one);
    if (!one.texts.panel.empty()) last_panel_ = one.texts.panel;
}

/// Rows that are no rows of the table: blank, notes below it, headings again, sections.
bool TableReader::read_text_row(const ListRow& row, const Cells& cells) {
    const auto leave = [&](const char* why) { return ledger_.leave_out(why), true; };
    const auto filled =
        std::ranges::count_if(cells, [](const std::string& cell) { return !cell.empty(); });
    if (filled == 0 && row.flaws.empty()) return leave("blank");
    if (filled == 0) return false;
    if (std::ranges::find(heading_cells_, cells) != heading_cells_.end()) {
        in_notes_ = false;
        return leave("header");
    }
    const Squeezed only = squeeze(cells.back());
    if (filled == 1 && words_.lexicon.is(only, "legend")) in_notes_ = true;
    if (in_notes_ && !begin_again(row, cells)) return leave("note");
    if (std::exchange(in_notes_, false)) return true; // a further table below the notes
    const std::string type = heading_.is_matrix() ? "" : heading_.text(cells, Role::type);
    const bool says_kind =
        filled == 1 && !type.empty() && words_.verdict({type, {}, {}}).reason != "type_unknown";
    const bool has_tag = tags_in_cells_ && heading_.kinds.front().column + 1 <= cells.size();
    if (filled > 1 || says_kind || has_tag || !row.flaws.empty()) return false;
    if (words_.lexicon.is(only, "spare")) return leave("spare");
    if (words_.lexicon.begins(only, "total")) return leave("total");
    read_only_cell(cells.back());
    return leave("section");
}

/// A section may name a panel for the rows below, or the kind of their points.
void TableReader::read_only_cell(const std::string& cell) {
    const std::string panel = panel_of_section(cell, words_.lexicon);
    if (!panel.empty()) {
        section_panel_ = panel_name(panel);
        panel_by_section_ = true;
    }
    const Verdict& verdict = words_.verdict({cell, {}, {}});
    const bool one_kind = verdict.is == Verdict::Is::point || verdict.proposes;
    const bool says_kind = one_kind && verdict.signals.size() == 1;
    if (says_kind || !heading_.of_one_kind) section_kind_ = says_kind ? cell : std::string{};
}

/// A column that counts its rows (1, 2, 3, 4 …) is an item number, whatever its heading.
void TableReader::drop_running_numbers() {
    auto& quantity = heading_.columns[static_cast<std::size_t>(Role::quantity)];
    if (quantity.empty()) return;
    int values = 0, last = 0;
    const std::size_t end = std::min(sheet_.rows.size(), heading_.last_row + rows_for_layout);
    for (std::size_t r = heading_.last_row + 1; r < end; ++r) {
        const Quantity number =
            read_quantity(heading_.text(sheet_.rows[r].cells, Role::quantity), words_.lexicon);
        if (!number.stated) continue;
        if (!number.refusal.empty() || (values > 0 && number.pieces != last + 1)) return;
        last = number.pieces;
        ++values;
    }
    if (values < least_running_numbers) return;
    quantity.clear();
    table_.quantity_column.clear();
}

/// What the first rows have in a column: texts, and among them words for a kind of point.
TableReader::ColumnWords TableReader::words_in(std::size_t column) const {
    ColumnWords words;
    const std::size_t end = std::min(sheet_.rows.size(), heading_.last_row + rows_for_layout);
    for (std::size_t r = heading_.last_row + 1; r < end; ++r) {
        const Cells& cells = sheet_.rows[r].cells;
        const std::string text = column < cells.size() ? clean_text(cells[column]) : "";
        if (text.empty()) continue;
        ++words.texts;
        words.known += words_.verdict({text, {}, {}}).reason != "type_unknown";
        words.kinds += !words_.headings.kind_of(squeeze(text)).empty();
    }
    return words;
}

/// Headings such as Type, Signal and Signal Type stand over either: where the column taken for the
/// type names no kinds and another one does, that one is the type.
void TableReader::take_type_that_says_kinds() {
    auto& type = heading_.columns[static_cast<std::size_t>(Role::type)];
    auto& electrics = heading_.columns[static_cast<std::size_t>(Role::electrics)];
    if (type.empty() || electrics.empty() || heading_.is_matrix()) return;
    const ColumnWords words = words_in(type.front());
    if (words.texts == 0 || words.known > 0) return;
    const auto better = std::ranges::find_if(
        electrics, [&](std::size_t column) { return words_in(column).kinds > 0; });
    if (better != electrics.end()) std::swap(type.front(), *better);
}

/// A second table below the first, with a heading of its own: where a kind of point should stand,
/// or beside it, is a heading of kinds.
bool TableReader::begin_again(const ListRow& row, const Cells& cells) {
    if (heading_.is_matrix() || !heading_.group.empty() ||
        std::ranges::none_of(
            cells, [&](const std::string& cell) { return words_.headings.is_kind_heading(cell); }))
        return false;
    const Verdict& verdict = words_.verdict({heading_.text(cells, Role::type), {}, {}});
    if (verdict.is != Verdict::Is::question || verdict.proposes) return false;
    auto heading = heading_again(sheet_, static_cast<std::size_t>(row.number) - 1, words_.headings);
    if (!heading || heading->is_matrix()) return false;
    heading_ = std::move(*heading);
    heading_cells_ = {cells};
    fields_ = row.cells.size();
    ledger_.leave_out("header");
    return true;
}

/// A row of totals says so in a word or two, or that spares are in it, or its numbers are those
/// that the rows above come to; "Total chlorine analyser" is a row of points.
bool TableReader::is_total_of_kinds(const Cells& cells, const std::string& first,
                                    const RowTexts& texts) const {
    for (const std::string& text : {texts.tag, texts.description, first}) {
        const Squeezed squeezed = squeeze(text);
        const auto blanks = std::ranges::count(text, ' ');
        if (words_.lexicon.begins(squeezed, "total") &&
            (blanks < 2 || words_.lexicon.says(squeezed, "installed")))
            return true;
    }
    return std::ranges::all_of(heading_.kinds, [&](const KindColumn& column) {
        if (column.kind == "soft" || column.column >= cells.size()) return true;
        const Quantity stated = read_quantity(cells[column.column], words_.lexicon);
        return !stated.stated || !stated.refusal.empty() ||
               tally_.kind_gives(column.title, stated.pieces);
    });
}

bool TableReader::is_total(const Cells& cells, const RowTexts& texts) const {
    const auto first = std::ranges::find_if(cells, [](const auto& cell) { return !cell.empty(); });
    if (first == cells.end()) return false;
    const auto begins = [&](const std::string& text) {
        return words_.lexicon.begins(squeeze(text), "total");
    };
    if (!begins(texts.tag) && !begins(texts.description) && !begins(*first)) return false;
    if (heading_.is_matrix()) return is_total_of_kinds(cells, *first, texts);
    return words_.verdict({heading_.text(cells, Role::type), texts.electrics, texts.address}).is ==
           Verdict::Is::question;
}

void TableReader::read_total(const Cells& cells, const RowTexts& texts) {
    ledger_.leave_out("total");
    if (heading_.is_matrix()) return read_kind_totals(cells, texts.tag + texts.description);
    std::vector<int> numbers;
    for (const std::string& cell : cells) {
        const Quantity quantity = read_quantity(cell, words_.lexicon);
        if (quantity.stated && quantity.refusal.empty()) numbers.push_back(quantity.pieces);
    }
    const bool known = !ledger_.has_refused(); // else what they would add is not known
    if (known && numbers.size() == 1 && !tally_.gives(numbers[0]))
        ledger_.add_mismatch({{}, 0, {}, {{"", numbers[0]}}, {{"", tally_.counted()}}});
    tally_.close_part();
}

/// Totals of columns, but for those that hold spares beyond the rows.
void TableReader::read_kind_totals(const Cells& cells, const std::string& text) {
    if (words_.lexicon.says(squeeze(text), "installed")) return;
    TotalsCheck check{{}, true};
    TotalMismatch mismatch;
    for (const KindColumn& column : heading_.kinds) {
        if (column.kind == "soft" || column.column >= cells.size()) continue;
        const Quantity stated = read_quantity(cells[column.column], words_.lexicon);
        if (!stated.stated || !stated.refusal.empty()) continue;
        check.stated[column.title] = stated.pieces;
        if (tally_.kind_gives(column.title, stated.pieces)) continue;
        check.agree = false;
        mismatch.stated[column.title] = stated.pieces;
        mismatch.counted[column.title] = tally_.counted_of(column.title);
    }
    if (!check.agree) ledger_.add_mismatch(std::move(mismatch));
    if (!check.stated.empty()) ledger_.check_totals(std::move(check));
}

ReadTable TableReader::table() const {
    ReadTable table = table_;
    if (heading_.is_matrix())
        table.layout = tags_in_cells_ ? "matrix with tags"
                       : marks_       ? "matrix with marks"
                                      : "matrix";
    else
        table.layout = several_signals_ ? "rows, several signals per row" : "rows";
    if (heading_.has(Role::panel))
        table.panel_from = "column";
    else if (panel_by_section_)
        table.panel_from = "section";
    else if (!sheet_panel_.empty())
        table.panel_from = "sheet name";
    table.merged_panel = merged_panel_;
    table.decimal_comma = decimal_comma_;
    return table;
}

} // namespace backplate
