#include <catch2/catch.hpp>

#include "pricing/request/node_values.h"

namespace backplate {
namespace {

TEST_CASE("exact values of numbers as JSON writes them") {
    struct Row {
        const char* literal;
        const char* value; // empty: none
    };
    const Row rows[] = {{"0", "0"},
                        {"-0", "0"},
                        {"12.50", "12.5"},
                        {"1e3", "1000"},
                        {"2.5E-1", "0.25"},
                        {"1.5e+2", "150"},
                        {"100e-11", "0.000000001"},
                        {"1e-10", ""},
                        {"1e18", "1000000000000000000"},
                        {"1e19", ""},
                        {"0.30000000000000004", ""}};
    for (const Row& row : rows) {
        INFO(row.literal);
        const auto value = exact_value(Node::make_number(row.literal));
        CHECK((value ? short_text(*value) : "") == row.value);
    }
    CHECK_FALSE(exact_value(Node::make_text("1")));
}

TEST_CASE("doubles are read without a locale and within their range") {
    CHECK(number_value(Node::make_number("0.30000000000000004")) == 0.30000000000000004);
    CHECK(number_value(Node::make_number("-1.5e2")) == -150.0);
    CHECK_FALSE(number_value(Node::make_number("1e999")));
    CHECK_FALSE(number_value(Node()));
}

TEST_CASE("texts are escaped as RFC 8259 says") {
    CHECK(json_quoted("a\"b\\c\nd\te\r") == R"("a\"b\\c\nd\te\r")");
    CHECK(json_quoted(std::string_view("\x01\x1f\0", 3)) == R"("\u0001\u001f\u0000")");
    CHECK(json_quoted("Größe, 尺寸") == "\"Größe, 尺寸\"");
}

TEST_CASE("values are compared by what they say") {
    Node a = Node::make_object(), b = Node::make_object();
    a.member("x") = Node::make_number("1.50");
    a.member("y") = Node::make_flag(true);
    b.member("y") = Node::make_flag(true);
    b.member("x") = Node::make_number("1.5");
    CHECK(same_value(a, b));
    b.member("x") = Node::make_number("1.51");
    CHECK_FALSE(same_value(a, b));
    b.member("x") = Node::make_text("1.50");
    CHECK_FALSE(same_value(a, b));
    b.erase("x");
    CHECK_FALSE(same_value(a, b));
}

} // namespace
} // namespace backplate
