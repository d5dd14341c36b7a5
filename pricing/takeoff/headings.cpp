#include "pricing/takeoff/headings.h"

#include <algorithm>

namespace backplate {
namespace {

constexpr std::size_t rows_looked_at = 30;

struct HeadingWord {
    std::size_t role = 0;
    Squeezed text;
};

struct HeadingMatch {
    std::size_t role = 0, rank = 0; ///< rank: place of the spelling in the table
    bool whole = false;
};

std::vector<HeadingWord> heading_words(const std::vector<Spelling>& spellings) {
    std::vector<HeadingWord> words;
    for (const Spelling& row : spellings) {
        const auto role = std::ranges::find(role_words, row.meaning) - role_words.begin();
        if (role < static_cast<std::ptrdiff_t>(role_words.size()))
            words.push_back({static_cast<std::size_t>(role), squeeze(row.text)});
    }
    return words;
}

std::string without_brackets(std::string text) {
    for (auto open = text.find('('); open != std::string::npos; open = text.find('(')) {
        const auto close = text.find(')', open);
        text.erase(open, close == std::string::npos ? close : close - open + 1);
    }
    return text;
}

bool stands_in(const Squeezed& word, const Squeezed& text) {
    Match match;
    for (std::size_t at = 0; at < text.text.size(); ++at)
        if (matches_at(text, at, word, match)) return true;
    return false;
}

std::optional<HeadingMatch> match_heading(const std::string& cell,
                                          const std::vector<HeadingWord>& words) {
    const Squeezed text = squeeze(without_brackets(clean_text(cell)));
    if (text.empty()) return std::nullopt;
    std::optional<HeadingMatch> best;
    std::size_t longest = 0;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i].text.text == text.text) return HeadingMatch{words[i].role, i, true};
        const std::size_t length = words[i].text.text.size();
        if (length <= longest || !stands_in(words[i].text, text)) continue;
        longest = length;
        best = HeadingMatch{words[i].role, i, false};
    }
    return best;
}

bool takes_one(std::size_t role) {
    switch (static_cast<Role>(role)) {
    case Role::tag:
    case Role::type:
    case Role::panel:
    case Role::address:
    case Role::quantity: return true;
    case Role::description:
    case Role::electrics:
    case Role::remarks: return false;
    }
    return false;
}

using RowMatches = std::vector<std::optional<HeadingMatch>>;

std::vector<std::size_t> columns_of(const RowMatches& matches, std::size_t role) {
    const auto is_of = [&](const auto& match, bool whole) {
        return match && match->role == role && match->whole == whole;
    };
    std::vector<std::size_t> columns;
    for (const bool whole : {true, false}) {
        for (std::size_t i = 0; i < matches.size(); ++i)
            if (is_of(matches[i], whole)) columns.push_back(i);
        if (!columns.empty()) break;
    }
    if (columns.size() > 1 && takes_one(role)) {
        const auto first = std::ranges::min_element(
            columns, {}, [&](std::size_t column) { return matches[column]->rank; });
        columns = {*first};
    }
    return columns;
}

int score_of(const Heading& heading, const RowMatches& matches) {
    int score = 0;
    for (const auto& columns : heading.columns)
        if (!columns.empty()) score += matches[columns[0]]->whole ? 2 : 1;
    return score;
}

RowMatches match_row(const Cells& cells, const std::vector<HeadingWord>& words) {
    RowMatches matches;
    for (const std::string& cell : cells) matches.push_back(match_heading(cell, words));
    return matches;
}

Heading heading_of(const RowMatches& matches) {
    Heading heading;
    for (std::size_t role = 0; role < role_words.size(); ++role)
        heading.columns[role] = columns_of(matches, role);
    return heading;
}

std::size_t filled_width(const Cells& cells) {
    std::size_t width = cells.size();
    while (width > 0 && clean_text(cells[width - 1]).empty()) --width;
    return width;
}

bool is_usable(const Heading& heading) {
    const auto roles = std::ranges::count_if(heading.columns,
                                             [](const auto& columns) { return !columns.empty(); });
    return roles >= 2 && (heading.has(Role::type) || heading.has(Role::electrics));
}

/// The row names roles, and has nothing where the heading above has its tags and descriptions.
bool is_second_row(const Heading& heading, const Cells& cells, const RowMatches& matches) {
    const bool names_points = heading.has(Role::tag) || heading.has(Role::description);
    return names_points && heading.text(cells, Role::tag).empty() &&
           heading.text(cells, Role::description).empty() &&
           std::ranges::any_of(matches, [](const auto& match) { return match && match->whole; });
}

RowMatches joined(RowMatches above, const RowMatches& below) {
    above.resize(std::max(above.size(), below.size()));
    for (std::size_t i = 0; i < below.size(); ++i)
        if (below[i] && (below[i]->whole || !above[i])) above[i] = below[i];
    return above;
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

std::optional<Heading> find_heading(const std::vector<Cells>& rows,
                                    const std::vector<Spelling>& spellings) {
    const auto words = heading_words(spellings);
    std::optional<Heading> best;
    int best_score = 0;
    const std::size_t end = std::min(rows.size(), rows_looked_at);
    RowMatches above = end > 0 ? match_row(rows[0], words) : RowMatches{};
    for (std::size_t r = 0; r < end; ++r) {
        RowMatches below = r + 1 < rows.size() ? match_row(rows[r + 1], words) : RowMatches{};
        Heading heading = heading_of(above);
        heading.row = heading.last_row = r;
        heading.width = filled_width(rows[r]);
        RowMatches taken = above;
        if (r + 1 < rows.size() && is_second_row(heading, rows[r + 1], below)) {
            taken = joined(above, below);
            heading.columns = heading_of(taken).columns;
            heading.last_row = r + 1;
            heading.width = std::max(heading.width, filled_width(rows[r + 1]));
        }
        above = std::move(below);
        const int score = score_of(heading, taken);
        if (!is_usable(heading) || score <= best_score) continue;
        best_score = score;
        best = std::move(heading);
    }
    if (best && !best->has(Role::type))
        std::swap(best->columns[static_cast<std::size_t>(Role::type)],
                  best->columns[static_cast<std::size_t>(Role::electrics)]);
    return best;
}

} // namespace backplate
