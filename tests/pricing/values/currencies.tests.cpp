#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "pricing/values/money.h"

using namespace backplate;

namespace {

std::vector<std::string> split(const std::string& line) {
    std::vector<std::string> cells;
    std::istringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    return cells;
}

/// Code to digits from the starter table; no cell before `digits` is quoted there.
std::map<std::string, std::string> starter_digits() {
    std::ifstream file(std::string(BACKPLATE_SOURCE_TREE) +
                       "/catalog/starter/rules/currencies.csv");
    REQUIRE(file);
    std::string line;
    std::getline(file, line);
    const std::vector<std::string> heading = split(line);
    const auto column = static_cast<std::size_t>(
        std::find(heading.begin(), heading.end(), "digits") - heading.begin());
    REQUIRE(column < heading.size());
    std::map<std::string, std::string> digits;
    while (std::getline(file, line)) {
        const std::vector<std::string> cells = split(line);
        if (cells.size() > column) digits[cells[0]] = cells[column];
    }
    return digits;
}

} // namespace

TEST_CASE("minor units of currencies in the starter rules") {
    // ISO 4217, list of exceptions dated 2025 and 2026; two digits where a currency has no row
    struct Row {
        const char* code;
        int digits;
    };
    const Row rows[] = {{"USD", 2}, {"EUR", 2}, {"JPY", 0}, {"KWD", 3}, {"CLF", 4},
                        {"ISK", 0}, {"TND", 3}, {"KRW", 0}, {"HUF", 2}};
    const auto digits = starter_digits();
    for (const Row& row : rows) {
        CAPTURE(row.code);
        const auto found = digits.find(row.code);
        CHECK((found == digits.end() ? "2" : found->second) == steps_text(row.digits, 0));
    }
    CHECK(digits.size() >= 20);
    for (const auto& [code, text] : digits) {
        CAPTURE(code, text);
        const auto value = parse_decimal(text);
        REQUIRE(value);
        CHECK(value->places == 0);
        CHECK(value->digits <= Money::places);
    }
}
