#include "pricing/book/price_book.h"

#include <catch2/catch.hpp>

using namespace backplate;

namespace {

Part part_of(const char* key, const char* kind) {
    Part part;
    part.key = key;
    part.kind = kind;
    return part;
}

} // namespace

TEST_CASE("a book finds its parts whatever their order was") {
    const PriceBook book({part_of("C", "rail"), part_of("A", "wire"), part_of("B", "rail")}, 7);
    CHECK(book.issue() == 7);
    CHECK(book.parts().front().key == "A");
    REQUIRE(book.find("B"));
    CHECK(book.find("B")->kind == "rail");
    CHECK(book.find("") == nullptr);
    CHECK(book.find("AA") == nullptr);
    CHECK(book.find("D") == nullptr);
    const auto rails = book.of_kind("rail");
    REQUIRE(rails.size() == 2);
    CHECK(rails[0]->key == "B");
    CHECK(rails[1]->key == "C");
    CHECK(book.of_kind("duct").empty());
    CHECK(PriceBook{}.parts().empty());
}

TEST_CASE("a key may stand once") {
    CHECK_THROWS_AS(PriceBook({part_of("A", "rail"), part_of("A", "wire")}, 1),
                    std::invalid_argument);
}

TEST_CASE("one demo part makes a demo book") {
    auto demo = part_of("A", "rail");
    demo.demo = true;
    CHECK_FALSE(PriceBook({part_of("B", "rail")}, 1).demo_data());
    CHECK(PriceBook({part_of("B", "rail"), demo}, 1).demo_data());
}
