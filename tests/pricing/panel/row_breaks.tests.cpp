#include "pricing/panel/row_breaks.h"

#include <catch2/catch.hpp>
#include <iostream>

#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// Breaks inside joined pieces and rows taken; nothing where a row is too long or there are too
/// many.
struct Judged {
    int breaks = 0, rows = 0;
    friend auto operator<=>(const Judged&, const Judged&) = default;
};

std::optional<Judged> judge(const std::vector<RowPiece>& pieces, const std::vector<int>& row_of,
                            std::int64_t rail, int most_rows) {
    Judged judged;
    std::int64_t used = 0;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (i == 0 || row_of[i] != row_of[i - 1]) {
            if (i > 0 && row_of[i] != row_of[i - 1] + 1) return std::nullopt;
            judged.breaks += i > 0 && pieces[i].joined ? 1 : 0;
            used = 0;
            ++judged.rows;
        }
        used += pieces[i].width;
        if (used > rail) return std::nullopt;
    }
    if (judged.rows > most_rows) return std::nullopt;
    return judged;
}

/// The best of every way to begin rows.
std::optional<Judged> best_of_all(const std::vector<RowPiece>& pieces, std::int64_t rail,
                                  int most_rows) {
    std::optional<Judged> best;
    const std::size_t ways = pieces.empty() ? 1 : std::size_t{1} << (pieces.size() - 1);
    for (std::size_t way = 0; way < ways; ++way) {
        std::vector<int> row_of;
        int row = 0;
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            if (i > 0 && (way >> (i - 1) & 1)) ++row;
            row_of.push_back(row);
        }
        const auto judged = judge(pieces, row_of, rail, most_rows);
        if (judged && (!best || *judged < *best)) best = judged;
    }
    return best;
}

} // namespace

// Expected: every way to begin rows, tried one by one.
TEST_CASE("rows are broken as every way tried one by one would break them") {
    Draws draws(71);
    int judged = 0, impossible = 0, broken = 0;
    for (int i = 0; i < 20000; ++i) {
        std::vector<RowPiece> pieces(static_cast<std::size_t>(draws.between(0, 9)));
        for (RowPiece& piece : pieces) piece = {draws.between(1, 5), draws.chance(60)};
        const int rail = draws.between(4, 12), rows = draws.between(1, 5);
        const auto row_of = break_rows(pieces, rail, rows);
        const auto best = best_of_all(pieces, rail, rows);
        CAPTURE(i, rail, rows);
        REQUIRE(row_of.has_value() == best.has_value());
        ++judged;
        if (!best) {
            ++impossible;
            continue;
        }
        REQUIRE(row_of->size() == pieces.size());
        const auto own = judge(pieces, *row_of, rail, rows);
        REQUIRE(own);
        REQUIRE(own->breaks == best->breaks);
        REQUIRE(own->rows == best->rows);
        broken += best->breaks > 0 ? 1 : 0;
    }
    std::cout << "row breaks: " << judged << " judged, " << impossible << " without a way, "
              << broken << " with a broken station\n";
    CHECK(judged - impossible >= 9000);
    CHECK(broken >= 500);
}

// Expected: placing one after the other, which is known to need the fewest rows for a fixed order.
TEST_CASE("where nothing is joined, rows are as few as one after the other needs") {
    Draws draws(73);
    for (int i = 0; i < 3000; ++i) {
        std::vector<RowPiece> pieces(static_cast<std::size_t>(draws.between(1, 60)));
        int rows = 0;
        std::int64_t left = 0;
        for (RowPiece& piece : pieces) {
            piece = {draws.between(10, 90), false};
            if (piece.width > left) ++rows, left = 200;
            left -= piece.width;
        }
        const auto row_of = break_rows(pieces, 200, rows + draws.between(0, 3));
        REQUIRE(row_of);
        REQUIRE(row_of->back() + 1 == rows);
        REQUIRE_FALSE(break_rows(pieces, 200, rows - 1));
    }
}
