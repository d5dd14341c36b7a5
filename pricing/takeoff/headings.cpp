#include "pricing/takeoff/headings.h"

#include <algorithm>
#include <set>

#include "pricing/takeoff/heading_match.h"

namespace backplate {
namespace {

constexpr std::size_t rows_looked_at = 30;
constexpr int least_whole_again = 3;
constexpr std::size_t sure_kinds = 3;

bool takes_one(std::size_t role) {
    switch (static_cast<Role>(role)) {
    case Role::tag:
    case Role::type:
    case Role::panel:
    case Role::address:
    case Role::quantity:
    case Role::device: return true;
    case Role::description:
    case Role::electrics:
    case Role::remarks: return false;
    }
    return false;
}

std::vector<std::size_t> columns_of(const RowMatches& matches, std::size_t role) {
    const auto is_of = [&](const HeadingMatch& match, bool whole) {
        return match.role == role && match.whole == whole;
    };
    std::vector<std::size_t> columns;
    for (const bool whole : {true, false}) {
        for (std::size_t i = 0; i < matches.size(); ++i)
            if (is_of(matches[i], whole)) columns.push_back(i);
        if (!columns.empty()) break;
    }
    if (columns.size() > 1 && takes_one(role)) {
        const auto first = std::ranges::min_element(
            columns, {}, [&](std::size_t column) { return matches[column].rank; });
        columns = {*first};
    }
    return columns;
}

/// Two kinds at least, or they are cells of a row.
std::vector<KindColumn> kinds_of(const RowMatches& matches) {
    std::vector<KindColumn> kinds;
    std::set<std::string> different;
    for (std::size_t i = 0; i < matches.size(); ++i) {
        if (matches[i].kind.empty()) continue;
        kinds.push_back({i, matches[i].heading, matches[i].title, matches[i].kind});
        different.insert(matches[i].kind);
    }
    if (different.size() < 2) kinds.clear();
    return kinds;
}

int score_of(const Heading& heading, const RowMatches& matches) {
    int score = 2 * static_cast<int>(heading.kinds.size());
    for (const auto& columns : heading.columns)
        if (!columns.empty()) score += matches[columns[0]].whole ? 2 : 1;
    return score;
}

bool is_usable(const Heading& heading, bool of_one_kind = false) {
    const auto roles = std::ranges::count_if(heading.columns,
                                             [](const auto& columns) { return !columns.empty(); });
    if (heading.is_matrix())
        return heading.has(Role::tag) || heading.has(Role::description) || heading.has(Role::panel);
    if (of_one_kind && heading.has(Role::tag)) return roles >= 2;
    return roles >= 2 &&
           (heading.has(Role::type) || heading.has(Role::electrics) || heading.has(Role::address));
}

/// In a table that is surely one of kinds, the texts left of them say what a row is, whatever their
/// heading.
void describe_by_place(Heading& heading, const RowMatches& matches) {
    if (heading.has(Role::tag) || heading.has(Role::description) || heading.has(Role::panel))
        return;
    for (std::size_t i = heading.kinds.front().column; i-- > 0;) {
        if (matches[i].matched() || matches[i].title.empty()) continue;
        heading.columns[static_cast<std::size_t>(Role::description)] = {i};
        return;
    }
}

/// Only columns from `first` to before `end`.
Heading heading_of(RowMatches matches, std::size_t first, std::size_t end) {
    for (std::size_t i = 0; i < matches.size(); ++i)
        if (i < first || i >= end) matches[i] = {};
    Heading heading;
    heading.kinds = kinds_of(matches);
    for (std::size_t role = 0; role < role_words.size(); ++role)
        heading.columns[role] = columns_of(matches, role);
    auto& type = heading.columns[static_cast<std::size_t>(Role::type)];
    auto& electrics = heading.columns[static_cast<std::size_t>(Role::electrics)];
    if (type.empty() && !heading.is_matrix()) std::swap(type, electrics);
    if (heading.kinds.size() >= sure_kinds) describe_by_place(heading, matches);
    return heading;
}

Heading heading_of(const RowMatches& matches) { return heading_of(matches, 0, matches.size()); }

/// The row names roles, and has nothing where the heading above has its tags and descriptions.
bool is_second_row(const Heading& heading, const Cells& cells, const RowMatches& matches) {
    const bool names_points = heading.has(Role::tag) || heading.has(Role::description);
    const bool names_roles = std::ranges::any_of(
        matches, [](const HeadingMatch& match) { return match.whole && match.kind.empty(); });
    return names_points && heading.text(cells, Role::tag).empty() &&
           heading.text(cells, Role::description).empty() &&
           (names_roles || !kinds_of(matches).empty());
}

RowMatches joined(RowMatches above, const RowMatches& below) {
    above.resize(std::max(above.size(), below.size()));
    for (std::size_t i = 0; i < below.size(); ++i)
        if (below[i].whole || (below[i].matched() && !above[i].matched())) above[i] = below[i];
    return above;
}

/// First columns of tables that stand side by side: where at least two headings come again.
std::vector<std::size_t> first_columns(const RowMatches& matches) {
    std::map<std::string, std::vector<std::size_t>> places;
    for (std::size_t i = 0; i < matches.size(); ++i)
        if (matches[i].whole && matches[i].kind.empty()) places[matches[i].title].push_back(i);
    std::vector<std::size_t> first;
    int again = 0;
    for (const auto& [title, columns] : places) {
        if (columns.size() < 2) continue;
        ++again;
        if (first.empty() || columns.size() > first.size() ||
            (columns.size() == first.size() && columns[0] < first[0]))
            first = columns;
    }
    return again >= 2 ? first : std::vector<std::size_t>{};
}

std::size_t filled_width(const Cells& cells) {
    std::size_t width = cells.size();
    while (width > 0 && clean_text(cells[width - 1]).empty()) --width;
    return width;
}

struct Found {
    Heading heading;
    RowMatches matches;
    int score = 0;
};

Found found_at(const std::vector<ListRow>& rows, std::size_t r, const RowMatches& above,
               const RowMatches& below) {
    Found found{heading_of(above), above, 0};
    found.heading.row = found.heading.last_row = r;
    found.heading.end_column = filled_width(rows[r].cells);
    if (r + 1 < rows.size() && is_second_row(found.heading, rows[r + 1].cells, below)) {
        found.matches = joined(above, below);
        found.heading = heading_of(found.matches);
        found.heading.row = r;
        found.heading.last_row = r + 1;
        found.heading.end_column =
            std::max(filled_width(rows[r].cells), filled_width(rows[r + 1].cells));
    }
    found.score = score_of(found.heading, found.matches);
    return found;
}

/// Whether rows between the heading and `end` name kinds of points where the heading says so. A
/// table without tags may be a legend.
bool holds_points(const ListSheet& sheet, const Heading& heading, std::size_t end,
                  const HeadingWords& words) {
    if (!heading.has(Role::tag)) return false;
    for (std::size_t r = heading.last_row + 1; r < end; ++r) {
        const Cells& cells = sheet.rows[r].cells;
        if (!words.kind_of(squeeze(heading.text(cells, Role::type))).empty()) return true;
        for (const KindColumn& column : heading.kinds)
            if (column.column < cells.size() && !squeeze(cells[column.column]).empty()) return true;
    }
    return false;
}

std::optional<Found> best_of(const ListSheet& sheet, const HeadingMatcher& matcher,
                             const TableChoice& choice, bool of_one_kind,
                             const HeadingWords& words) {
    const auto& rows = sheet.rows;
    std::optional<Found> best;
    const std::size_t end = std::min(rows.size(), rows_looked_at);
    RowMatches above = end > 0 ? matcher.match(rows[0].cells) : RowMatches{};
    for (std::size_t r = 0; r < end; ++r) {
        RowMatches below = r + 1 < rows.size() ? matcher.match(rows[r + 1].cells) : RowMatches{};
        Found found = found_at(rows, r, above, below);
        above = std::move(below);
        if (choice.heading_row && *choice.heading_row != rows[r].number) continue;
        if (!is_usable(found.heading, of_one_kind) || (best && found.score <= best->score))
            continue;
        // A better heading below rows of points is that of a second table.
        if (best && holds_points(sheet, best->heading, r, words)) break;
        best = std::move(found);
    }
    return best;
}

/// What stands above a table among several: the filled cells of the row above its heading.
std::string group_above(const ListSheet& sheet, const Heading& heading) {
    std::string text;
    if (heading.row == 0) return text;
    const Cells& cells = sheet.rows[heading.row - 1].cells;
    for (std::size_t i = heading.first_column; i < std::min(heading.end_column, cells.size()); ++i)
        text += (text.empty() ? "" : " ") + clean_text(cells[i]);
    return text;
}

std::vector<Heading> side_by_side(const ListSheet& sheet, const Found& found) {
    const auto firsts = first_columns(found.matches);
    std::vector<Heading> tables;
    for (std::size_t i = 0; i < firsts.size(); ++i) {
        const std::size_t end = i + 1 < firsts.size() ? firsts[i + 1] : found.heading.end_column;
        Heading table = heading_of(found.matches, i == 0 ? 0 : firsts[i], end);
        table.row = found.heading.row;
        table.last_row = found.heading.last_row;
        table.first_column = i == 0 ? 0 : firsts[i];
        table.end_column = end;
        table.group = group_above(sheet, table);
        if (!is_usable(table)) return {};
        tables.push_back(std::move(table));
    }
    return tables;
}

/// A table without a heading: all columns are chosen by hand.
std::vector<Heading> without_heading(const HeadingMatcher& matcher) {
    Heading heading = heading_of(matcher.by_letters());
    heading.headless = true;
    for (const auto& columns : heading.columns)
        for (const std::size_t column : columns)
            heading.end_column = std::max(heading.end_column, column + 1);
    return is_usable(heading) ? std::vector{heading} : std::vector<Heading>{};
}

} // namespace

std::string Heading::text(const Cells& row_cells, Role role) const {
    std::string joined;
    for (const std::size_t column : columns[static_cast<std::size_t>(role)]) {
        if (column >= row_cells.size()) continue;
        const std::string text = clean_text(row_cells[column]);
        if (!joined.empty() && !text.empty()) joined += ' ';
        joined += text;
    }
    return joined;
}

std::vector<Heading> find_headings(const ListSheet& sheet, const HeadingWords& words,
                                   const TableChoice& choice) {
    const HeadingMatcher matcher(words, choice.columns);
    if (choice.heading_row == 0) return without_heading(matcher);
    const std::string kind = words.kind_of(squeeze(sheet.name));
    const bool of_one_kind = !kind.empty() && kind != "soft";
    auto best = best_of(sheet, matcher, choice, of_one_kind, words);
    if (!best) return {};
    best->heading.of_one_kind = of_one_kind;
    const auto& cells = sheet.rows[best->heading.row].cells;
    const auto first = std::ranges::find_if(
        cells, [](const std::string& cell) { return !clean_text(cell).empty(); });
    best->heading.first_column = static_cast<std::size_t>(first - cells.begin());
    auto tables = side_by_side(sheet, *best);
    return tables.empty() ? std::vector{best->heading} : tables;
}

std::optional<Heading> heading_again(const ListSheet& sheet, std::size_t row,
                                     const HeadingWords& words) {
    const HeadingMatcher matcher(words, {});
    const RowMatches matches = matcher.match(sheet.rows[row].cells);
    const auto whole =
        std::ranges::count_if(matches, [](const HeadingMatch& match) { return match.whole; });
    if (whole < least_whole_again) return std::nullopt;
    Heading heading = heading_of(matches);
    heading.row = heading.last_row = row;
    heading.end_column = filled_width(sheet.rows[row].cells);
    return is_usable(heading) ? std::optional(heading) : std::nullopt;
}

} // namespace backplate
