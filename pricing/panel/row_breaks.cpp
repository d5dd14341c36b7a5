#include "pricing/panel/row_breaks.h"

#include <algorithm>
#include <limits>

namespace backplate {
namespace {

constexpr int never = std::numeric_limits<int>::max() / 2;

/// fewest[rows][i]: breaks inside joined pieces when the pieces from i on take so many rows.
using Fewest = std::vector<std::vector<int>>;

int cost_of_break(const std::vector<RowPiece>& pieces, std::size_t at) {
    return at > 0 && at < pieces.size() && pieces[at].joined ? 1 : 0;
}

/// One more row before what `after` tells of.
std::vector<int> with_row(const std::vector<RowPiece>& pieces, std::int64_t rail,
                          const std::vector<int>& after) {
    std::vector<int> fewest(pieces.size() + 1, never);
    for (std::size_t from = 0; from < pieces.size(); ++from) {
        std::int64_t used = 0;
        for (std::size_t to = from; to < pieces.size(); ++to) {
            used += pieces[to].width;
            if (used > rail) break;
            fewest[from] = std::min(fewest[from], after[to + 1] + cost_of_break(pieces, to + 1));
        }
    }
    return fewest;
}

/// Follows the table: every row takes as much as keeps the fewest breaks of the rest.
std::vector<int> follow(const std::vector<RowPiece>& pieces, std::int64_t rail,
                        const Fewest& fewest, std::size_t rows) {
    std::vector<int> row_of;
    for (std::size_t from = 0; rows > 0; --rows) {
        std::size_t best = from;
        std::int64_t used = 0;
        for (std::size_t to = from; to < pieces.size(); ++to) {
            used += pieces[to].width;
            if (used > rail) break;
            if (fewest[rows - 1][to + 1] + cost_of_break(pieces, to + 1) == fewest[rows][from])
                best = to + 1;
        }
        const int row = row_of.empty() ? 0 : row_of.back() + 1;
        row_of.resize(best, row);
        from = best;
    }
    return row_of;
}

} // namespace

std::optional<std::vector<int>> break_rows(const std::vector<RowPiece>& pieces, std::int64_t rail,
                                           int most_rows) {
    Fewest fewest(1, std::vector<int>(pieces.size() + 1, never));
    fewest[0][pieces.size()] = 0;
    std::size_t best = 0;
    while (fewest.size() <= static_cast<std::size_t>(most_rows)) {
        fewest.push_back(with_row(pieces, rail, fewest.back()));
        if (fewest.back()[0] < fewest[best][0]) best = fewest.size() - 1;
        if (fewest[best][0] == 0) break;
    }
    if (fewest[best][0] >= never) return std::nullopt;
    return follow(pieces, rail, fewest, best);
}

} // namespace backplate
