#include <catch2/catch.hpp>

#include "pricing/request/word_pattern.h"

namespace backplate {
namespace {

struct Row {
    const char* pattern;
    const char* text;
    bool matches;
};

// expected by hand
const Row rows[] = {
    {"^[A-Z]{3}$", "EUR", true},
    {"^[A-Z]{3}$", "EURO", false},
    {"^[A-Z]{3}$", "EU", false},
    {"^[A-Z]{3}$", "EuR", false},
    {"a?b*c+", "c", true},
    {"a?b*c+", "abbbcc", true},
    {"a?b*c+", "aac", false},
    {"a?b*c+", "ab", false},
    {"(ab|c){2}", "abc", true},
    {"(ab|c){2}", "cc", true},
    {"(ab|c){2}", "ab", false},
    {"x{2,3}", "x", false},
    {"x{2,3}", "xxx", true},
    {"x{2,3}", "xxxx", false},
    {"x{2,}", "xxxxx", true},
    {"one|two", "two", true},
    {"one|two", "onetwo", false},
    {"[^0-9]+", "abc", true},
    {"[^0-9]+", "ab3", false},
    {"a\\/b\\.", "a/b.", true},
    {"a\\/b\\.", "a/bx", false},
    {".+", "", false},
    {".+", "x y", true},
    {"", "", true},
    {"(a?){1000000000}", "aaa", true},
    {"(a*)*b", "aaaaaaaaaaaaaaaaaaaaaaaac", false},
    {"[a-", "a", true},
    {"(a", "a", true},
};

TEST_CASE("patterns match the whole text") {
    for (const Row& row : rows) {
        INFO(row.pattern << " on " << row.text);
        CHECK(matches_pattern(row.pattern, row.text) == row.matches);
    }
}

} // namespace
} // namespace backplate
