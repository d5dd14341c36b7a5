#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace backplate {

/// A piece on a rail, 0.1 mm.
struct RowPiece {
    std::int64_t width = 0;
    bool joined = false; ///< plugs into the piece before it
};

/// The row (from 0) of every piece when they stand in their order on at most `most_rows` rails:
/// as few rows begin inside joined pieces as can be, then as few rows are taken, then each row
/// holds as much as it can. Nothing where they do not fit.
std::optional<std::vector<int>> break_rows(const std::vector<RowPiece>& pieces, std::int64_t rail,
                                           int most_rows);

} // namespace backplate
