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

TEST_CASE("a book's part knows its net price, a copy works it out anew") {
    Part part = part_of("A", "rail");
    part.list = Money::whole(100);
    part.discounts = {Percent::whole(20)};
    const PriceBook book({part}, 1);
    CHECK(book.find("A")->net() == Money::whole(80));
    Part copy = *book.find("A");
    copy.discounts.clear();
    CHECK(copy.net() == Money::whole(100));
    part = *book.find("A");
    part.list.reset();
    CHECK_FALSE(part.net());
    CHECK(*book.find("A") == *PriceBook({*book.find("A")}, 1).find("A"));
}

namespace {

Part priced(const char* key, int price, double width_mm = 10) {
    Part part = part_of(key, "rail");
    part.list = Money::whole(price);
    part.width_mm = width_mm;
    return part;
}

std::string rails_of(const PriceBook& book) {
    std::string keys;
    for (const Part* part : book.of_kind("rail")) keys += part->key;
    return keys;
}

bool any(const Part&) { return true; }
bool none(const Part&) { return false; }

} // namespace

TEST_CASE("of parts alike only the cheapest stays, of equally dear ones the first") {
    const PriceBook book(
        {priced("A", 5), priced("B", 4), priced("C", 4), priced("D", 9, 11), part_of("E", "rail")},
        1);
    CHECK(rails_of(book.without_dearer_alike(any, none)) == "BDE");
    const auto not_b = [](const Part& part) { return part.key != "B"; };
    CHECK(rails_of(book.without_dearer_alike(not_b, none)) == "CDE");
    CHECK(rails_of(book.narrowed(not_b).without_dearer_alike(any, none)) == "CDE");
    const auto is_a = [](const Part& part) { return part.key == "A"; };
    CHECK(rails_of(book.without_dearer_alike(any, is_a)) == "ABDE");
    Part needs = part_of("F", "duct"), combined = part_of("G", "duct");
    needs.accessories = {{"A", 1}};
    combined.combinations = {{"C", 10}};
    std::vector<Part> named = book.parts();
    named.push_back(needs);
    named.push_back(combined);
    CHECK(rails_of(PriceBook(named, 1).without_dearer_alike(any, none)) == "ABCDE");
}

TEST_CASE("one demo part makes a demo book") {
    auto demo = part_of("A", "rail");
    demo.demo = true;
    CHECK_FALSE(PriceBook({part_of("B", "rail")}, 1).demo_data());
    CHECK(PriceBook({part_of("B", "rail"), demo}, 1).demo_data());
}
