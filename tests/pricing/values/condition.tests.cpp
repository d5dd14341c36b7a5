#include <catch2/catch.hpp>

#include "pricing/values/condition.h"

using namespace backplate;

namespace {

struct TermCase {
    const char *condition, *fact;
    bool holds;
};

// The grammar is our own; each comparison with a fact that meets it and one that does not.
const TermCase term_cases[] = {
    {"a=x", "x", true},   {"a=x", "y", false},   {"a=x", "", false},     {"a!=x", "y", true},
    {"a!=x", "x", false}, {"a>2", "2.5", true},  {"a>2", "2", false},    {"a>2", "two", false},
    {"a>-1", "0", true},  {"a>-1", "-1", false}, {"a.b=no", "no", true}, {"a.b=no", "yes", false},
};

} // namespace

TEST_CASE("a term holds by its comparison") {
    for (const TermCase& each : term_cases) {
        CAPTURE(each.condition, each.fact);
        const auto terms = parse_condition(each.condition);
        REQUIRE(terms);
        REQUIRE(terms->size() == 1);
        CHECK(terms->front().holds(each.fact) == each.holds);
    }
}

TEST_CASE("all terms of a condition must hold") {
    const auto terms = parse_condition("a=x and b>1 and c!=z");
    REQUIRE(terms);
    REQUIRE(terms->size() == 3);
    const auto holds = [&](const char* a, const char* b, const char* c) {
        return all_hold(*terms, [&](const std::string& key) {
            return std::string(key == "a" ? a : key == "b" ? b : c);
        });
    };
    CHECK(holds("x", "2", "y"));
    CHECK_FALSE(holds("y", "2", "y"));
    CHECK_FALSE(holds("x", "1", "y"));
    CHECK_FALSE(holds("x", "2", "z"));
}

TEST_CASE("always is a condition without a term") {
    const auto terms = parse_condition("always");
    REQUIRE(terms);
    CHECK(terms->empty());
    CHECK(all_hold(*terms, [](const std::string&) { return std::string(); }));
}

TEST_CASE("what has another form is no condition") {
    for (const char* text : {"", "a", "=x", "a=", "a!x", "a>", "a>many", "a=x or b=y", "a=x and ",
                             "a=x and always", "a = x", "a==x", "a>=1"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_condition(text));
    }
}
