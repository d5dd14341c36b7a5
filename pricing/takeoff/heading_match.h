#pragma once

#include <string>
#include <vector>

#include "pricing/takeoff/headings.h"

namespace backplate {

/// What a heading cell was taken for.
struct HeadingMatch {
    std::size_t role = role_words.size(); ///< none
    std::size_t rank = 0;                 ///< place of the spelling in the table
    bool whole = false;
    std::string heading, title, kind; ///< kind: of a column of points of one kind

    bool matched() const { return role < role_words.size() || !kind.empty(); }
};

using RowMatches = std::vector<HeadingMatch>; ///< per column

/// Matches cells with headings; columns chosen by hand come first.
class HeadingMatcher {
public:
    HeadingMatcher(const HeadingWords& words, std::vector<ColumnChoice> choices)
        : words_(words), choices_(std::move(choices)) {}

    RowMatches match(const Cells& cells) const;
    /// Matches of the columns that are chosen by their letters.
    RowMatches by_letters() const;

private:
    HeadingMatch match_cell(const std::string& cell) const;
    bool match_choice(const std::string& cell, HeadingMatch& match) const;

    const HeadingWords& words_;
    std::vector<ColumnChoice> choices_;
};

} // namespace backplate
