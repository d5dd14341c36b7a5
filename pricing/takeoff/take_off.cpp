#include "pricing/takeoff/take_off.h"

#include <algorithm>
#include <set>

#include "pricing/takeoff/table_reader.h"
#include "pricing/values/work.h"

namespace backplate {
namespace {

constexpr std::size_t rows_between_looks = 1'000;
constexpr int shared_tags_percent = 80; ///< from which on two sheets are one list
constexpr std::size_t least_shared_tags = 3;

bool is_blank_row(const ListRow& row) {
    return row.flaws.empty() && std::ranges::all_of(row.cells, [](const std::string& cell) {
               return clean_text(cell).empty();
           });
}

/// A sheet of sums: a panel in each row, points by kind in its columns.
struct Summary {
    const ListSheet* sheet = nullptr;
    Heading heading;
};

/// The cells of a row that belong to a table, in their places.
ListRow part_of(const ListRow& row, const Heading& table, bool is_last) {
    ListRow part = row;
    const std::size_t end = is_last ? row.cells.size() : table.end_column;
    for (std::size_t i = 0; i < part.cells.size(); ++i)
        if (i < table.first_column || i >= end) part.cells[i].clear();
    std::erase_if(part.flaws, [&](const FlawedCell& cell) {
        return cell.column < table.first_column || (cell.column >= end && !is_last);
    });
    return part;
}

void add_counts(SignalCounts& counts, const SignalCounts& more) {
    for (const auto& [key, count] : more) counts[key] += count;
}

template <class Items> void append(Items& items, Items& more) {
    items.insert(items.end(), std::make_move_iterator(more.begin()),
                 std::make_move_iterator(more.end()));
}

void add_sheet(Takeoff& sum, Takeoff&& sheet) {
    append(sum.tables, sheet.tables);
    append(sum.points, sheet.points);
    append(sum.rows, sheet.rows);
    sum.rows_counted += sheet.rows_counted;
    add_counts(sum.spare_rows, sheet.spare_rows);
    add_counts(sum.bus_rows, sheet.bus_rows);
    add_counts(sum.rows_not_counted, sheet.rows_not_counted);
    append(sum.ask, sheet.ask);
    append(sum.refuse_rows, sheet.refuse_rows);
    append(sum.warn, sheet.warn);
    append(sum.total_mismatches, sheet.total_mismatches);
    append(sum.notes, sheet.notes);
    if (!sum.totals_check) sum.totals_check = std::move(sheet.totals_check);
}

/// Takes off the sheets one by one and puts them together.
class ListTaker {
public:
    ListTaker(const RuleBook& rules, const TakeoffWish& wish)
        : wish_(wish), words_(rules, wish.answers) {}

    Takeoff take(const std::vector<ListSheet>& sheets) {
        for (const ListSheet& sheet : sheets)
            if (wish_.sheet.empty() || sheet.name == wish_.sheet) take_sheet(sheet);
        const bool only_sums = result_.tables.empty();
        for (const Summary& summary : summaries_) {
            if (only_sums)
                keep(read_tables(*summary.sheet, {summary.heading}), *summary.sheet);
            else
                compare(summary);
        }
        return std::move(result_);
    }

private:
    void take_sheet(const ListSheet& sheet) {
        auto tables = find_headings(sheet, words_.headings, wish_.answers.table);
        if (tables.empty()) {
            if (std::ranges::any_of(sheet.rows, [](const auto& row) { return !is_blank_row(row); }))
                result_.ignored_sheets.push_back(sheet.name);
            return;
        }
        if (tables.size() == 1 && tables[0].is_summary() && !sheet.hidden) {
            summaries_.push_back({&sheet, tables[0]});
            return;
        }
        keep(read_tables(sheet, std::move(tables)), sheet);
    }

    Takeoff read_tables(const ListSheet& sheet, std::vector<Heading> tables);
    static void read_row(const ListRow& row, std::vector<TableReader>& readers,
                         const std::vector<Heading>& tables, Ledger& ledger);
    void keep(Takeoff&& sheet, const ListSheet& from);
    bool is_asked(const Takeoff& sheet, const ListSheet& from);
    bool asked_about_sheet(const ListSheet& from, const char* reason, std::string text);
    std::string copied_sheet(const std::set<std::string>& tags) const;
    void compare(const Summary& summary);
    void compare_row(const Summary& summary, const Cells& cells, const PanelCounts& panels,
                     const PanelCounts& if_accepted);

    const TakeoffWish& wish_;
    ListWords words_;
    Takeoff result_;
    std::vector<Summary> summaries_;
    std::vector<std::pair<std::string, std::set<std::string>>> tags_of_sheets_;
};

Takeoff ListTaker::read_tables(const ListSheet& sheet, std::vector<Heading> tables) {
    Ledger ledger(sheet.name);
    std::vector<TableReader> readers;
    for (const Heading& table : tables) readers.emplace_back(sheet, table, words_, ledger);
    FileNote filtered{"filter_active", {}, "rows hidden by a filter are counted; say so", {}};
    for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
        if (i % rows_between_looks == 0 && wish_.stop.stop_requested()) throw Stopped{};
        const ListRow& row = sheet.rows[i];
        if (!tables[0].headless && i <= tables[0].last_row) {
            ledger.begin_row(row.number);
            ledger.leave_out(i >= tables[0].row ? "header" : is_blank_row(row) ? "blank" : "title");
            continue;
        }
        if (row.filtered) filtered.rows.push_back(row.number);
        read_row(row, readers, tables, ledger);
    }
    if (!filtered.rows.empty()) ledger.add_note(std::move(filtered));
    Takeoff result = ledger.take();
    result.tables.push_back(readers.front().table());
    return result;
}

void ListTaker::read_row(const ListRow& row, std::vector<TableReader>& readers,
                         const std::vector<Heading>& tables, Ledger& ledger) {
    if (tables.size() == 1) return readers[0].read(row);
    bool any = false;
    for (std::size_t t = 0; t < tables.size(); ++t) {
        const ListRow part = part_of(row, tables[t], t + 1 == tables.size());
        if (is_blank_row(part)) continue;
        any = true;
        readers[t].read(part);
    }
    if (any) return;
    ledger.begin_row(row.number);
    ledger.leave_out("blank");
}

std::string counts_text(const SignalCounts& counts) {
    std::string text;
    for (const auto& [signal, count] : counts)
        text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + signal;
    return text.empty() ? "no points" : text;
}

bool ListTaker::asked_about_sheet(const ListSheet& from, const char* reason, std::string text) {
    const ListAnswer* answer = wish_.answers.find(reason, from.name, 0, {});
    using Does = ListAnswer::Does;
    if (answer && answer->does == Does::count) return false;
    if (answer && (answer->does == Does::leave_out || answer->does == Does::accept)) return true;
    OpenQuestion question;
    question.sheet = from.name;
    question.reason = reason;
    question.proposal = SignalCounts{};
    question.text = std::move(text);
    result_.ask.push_back(std::move(question));
    return true;
}

std::string ListTaker::copied_sheet(const std::set<std::string>& tags) const {
    if (tags.size() < least_shared_tags) return {};
    for (const auto& sheet : tags_of_sheets_) {
        const auto shared = std::ranges::count_if(
            tags, [&](const std::string& tag) { return sheet.second.contains(tag); });
        if (static_cast<std::size_t>(shared) * 100 >= tags.size() * shared_tags_percent)
            return sheet.first;
    }
    return {};
}

/// A hidden sheet, or one that repeats another, is asked and stays out.
bool ListTaker::is_asked(const Takeoff& sheet, const ListSheet& from) {
    if (!sheet.holds_rows() || !wish_.sheet.empty()) return false;
    const std::string holds = counts_text(sheet.counts());
    if (from.hidden) {
        result_.hidden_sheets.push_back(from.name);
        return asked_about_sheet(from, "hidden_sheet",
                                 "a hidden sheet looks like a list (" + holds +
                                     "); not counted unless the user says so");
    }
    std::set<std::string> tags;
    for (const TakenPoint& point : sheet.points)
        if (!point.tag.empty()) tags.insert(lower_ascii(point.tag));
    const std::string copied = copied_sheet(tags);
    const bool asked =
        !copied.empty() && asked_about_sheet(from, "sheet_copy",
                                             "has the tags of sheet " + copied + " (" + holds +
                                                 "); not counted unless the user says so");
    if (!asked) tags_of_sheets_.emplace_back(from.name, std::move(tags));
    return asked;
}

void ListTaker::keep(Takeoff&& sheet, const ListSheet& from) {
    if (is_asked(sheet, from)) return;
    if (sheet.holds_rows() || !from.hidden)
        add_sheet(result_, std::move(sheet));
    else
        result_.ignored_sheets.push_back(from.name);
}

/// Compares one row of sums with what was counted: a panel, or all of them.
void ListTaker::compare_row(const Summary& summary, const Cells& cells, const PanelCounts& panels,
                            const PanelCounts& if_accepted) {
    const std::string name = summary.heading.text(cells, Role::panel);
    const bool total = words_.lexicon.begins(squeeze(name), "total");
    SignalCounts counted, accepted;
    for (const auto& [panel, counts] : panels)
        if (total || lower_ascii(panel) == lower_ascii(name)) add_counts(counted, counts);
    for (const auto& [panel, counts] : if_accepted)
        if (total || lower_ascii(panel) == lower_ascii(name)) add_counts(accepted, counts);
    std::map<std::string, int> columns;
    for (const KindColumn& column : summary.heading.kinds) columns[column.kind] = 0;
    TotalMismatch mismatch{summary.sheet->name, 0, name, {}, {}};
    for (const KindColumn& column : summary.heading.kinds) {
        if (column.kind == "soft" || column.column >= cells.size()) continue;
        const Quantity stated = read_quantity(clean_text(cells[column.column]), words_.lexicon);
        const int ours = sum_of_kind(counted, column.kind, columns);
        if (!stated.stated || !stated.refusal.empty() || stated.pieces == ours ||
            stated.pieces == sum_of_kind(accepted, column.kind, columns))
            continue;
        mismatch.stated[column.title] = stated.pieces;
        mismatch.counted[column.title] = ours;
    }
    if (!mismatch.stated.empty()) result_.total_mismatches.push_back(std::move(mismatch));
}

void ListTaker::compare(const Summary& summary) {
    result_.ignored_sheets.push_back(summary.sheet->name);
    const PanelCounts panels = result_.panels(), if_accepted = result_.panels_if_accepted();
    for (std::size_t i = summary.heading.last_row + 1; i < summary.sheet->rows.size(); ++i)
        if (!summary.heading.text(summary.sheet->rows[i].cells, Role::panel).empty())
            compare_row(summary, summary.sheet->rows[i].cells, panels, if_accepted);
}

/// Questions about the file itself.
void ask_about_file(const ListFile& file, const ListAnswers& answers, Takeoff& takeoff) {
    OpenQuestion question;
    if (file.reading.misnamed && !answers.find("wrong_extension", {}, 0, {})) {
        question.reason = "wrong_extension";
        question.proposed_word = "read_as_csv";
        question.text = "content is text, not a workbook";
        takeoff.ask.push_back(question);
    }
    if (!takeoff.tables.empty() || !takeoff.ask.empty() || takeoff.ignored_sheets.empty()) return;
    question.reason = "no_header";
    question.text = "no heading in the first 30 rows names the type, the electrics or the address "
                    "of a point and one more column; which columns hold what?";
    takeoff.ask.push_back(question);
}

} // namespace

std::vector<std::string> list_words(const RuleBook& rules) {
    std::vector<std::string> words;
    for (const auto* table : {&rules.headings, &rules.spellings})
        for (const Spelling& row : *table) words.push_back(row.text);
    return words;
}

Takeoff take_off(const ListFile& file, const RuleBook& rules, const TakeoffWish& wish) {
    Takeoff takeoff = ListTaker(rules, wish).take(file.sheets);
    ask_about_file(file, wish.answers, takeoff);
    return takeoff;
}

} // namespace backplate
