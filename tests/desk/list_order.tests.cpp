#include <catch2/catch.hpp>

#include "app/desk/list_order.h"

using namespace backplate;

namespace {

using Order = std::vector<std::size_t>;

const std::vector<std::vector<std::string>> rows{
    {"b", "≈ +1\u202f200.50 EUR"}, {"A", "–"}, {"c", "-3"}, {"a", "≈ +20"}, {"All", "1217.50"}};

} // namespace

TEST_CASE("figures are sorted by their worth, what is none comes last either way") {
    CHECK(shown_order(rows, {1, true, true, false, true}) == Order{2, 3, 0, 1, 4});
    CHECK(shown_order(rows, {1, false, true, false, true}) == Order{0, 3, 2, 1, 4});
    CHECK(shown_order({{"1,5"}, {"1,25"}, {"0,9"}}, {0, true, true}) == Order{2, 1, 0});
}

TEST_CASE("words are sorted whatever their case, equal ones stay as they came") {
    CHECK(shown_order(rows, {0, true, false, false, true}) == Order{1, 3, 0, 2, 4});
    CHECK(shown_order(rows, {0, true}) == Order{1, 3, 4, 0, 2});
}

TEST_CASE("rows stand as they came until a column is named") {
    CHECK(shown_order(rows, {}) == Order{0, 1, 2, 3, 4});
    CHECK(shown_order(rows, {0, true, false, true}) == Order{0, 1, 2, 3, 4});
    CHECK(shown_order(rows, {0, false, false, true}) == Order{4, 3, 2, 1, 0});
    CHECK(shown_order({}, {0, true, true, false, true}).empty());
    CHECK(shown_order({{}, {"x"}}, {3, true}) == Order{0, 1});
}
