#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>

#include "catalog/exchange/price_csv.h"
#include "pricing/book/price_book.h"

using namespace backplate;

namespace {

const std::string tree = BACKPLATE_SOURCE_TREE;

std::vector<Part> fish_pass() {
    return read_parts_file(tree + "/tests/worked_jobs/fish_pass/parts.csv");
}
std::vector<Part> demo() { return read_parts_dir(tree + "/demo/prices"); }

std::string lines(const std::vector<BookFault>& faults) {
    std::string text;
    for (const auto& fault : faults)
        text += fault.part + "/" + fault.field + " " + fault.text + "\n";
    return text;
}

/// The faults of the demo book after a change to one part.
std::string after(const char* key, const std::function<void(Part&)>& change) {
    auto parts = demo();
    const auto found =
        std::find_if(parts.begin(), parts.end(), [&](const Part& part) { return part.key == key; });
    REQUIRE(found != parts.end());
    change(*found);
    return lines(check_book(PriceBook(parts, 1)));
}

std::string without(const std::function<bool(const Part&)>& gone) {
    auto parts = demo();
    const auto count = parts.size();
    parts.erase(std::remove_if(parts.begin(), parts.end(), gone), parts.end());
    REQUIRE(parts.size() < count);
    return lines(check_book(PriceBook(parts, 1)));
}

} // namespace

TEST_CASE("the demo book and the book of the worked job are complete") {
    CHECK(lines(check_book(PriceBook(demo(), 1))).empty());
    CHECK(lines(check_book(PriceBook(fish_pass(), 1))).empty());
    CHECK(PriceBook(demo(), 1).demo_data());
    CHECK_FALSE(PriceBook(fish_pass(), 1).demo_data());
}

TEST_CASE("every part of the demo book can be priced and is marked as demo") {
    int judged = 0;
    for (const auto& part : demo()) {
        CAPTURE(part.key);
        CHECK(part.net());
        CHECK(part.price_date);
        CHECK(part.valid_until);
        CHECK(part.lead_days);
        CHECK(part.demo);
        CHECK_FALSE(part.maker.empty());
        ++judged;
    }
    CHECK(judged >= 60);
}

TEST_CASE("what a part lacks is named") {
    CHECK(after("VC-202", [](Part& part) {
              part.accessories = {{"VC-C99", 1}};
          }) == "VC-202/accessory needs VC-C99, which is not in the book\n");
    CHECK(after("VC-202", [](Part& part) { part.width_mm.reset(); }) ==
          "VC-202/width_mm is missing; expected a number from 0 to 5000 mm\n");
    CHECK(after("VC-202", [](Part& part) { part.own_a.reset(); }) ==
          "VC-202/own_a is missing; expected a number from 0 to 200 A\n");
    CHECK(after("VC-202", [](Part& part) { part.groups.clear(); }) ==
          "VC-202/channels has no channels\n");
    CHECK(after("VC-202", [](Part& part) { part.places = 0; }) ==
          "VC-202/places is missing; expected a whole number from 0 to 1000\n");
    CHECK(after("VC-202", [](Part& part) { part.max_c.reset(); }) ==
          "VC-202/max_c is missing; expected a number from 20 to 120 \xC2\xB0"
          "C\n");
    CHECK(after("DP-050", [](Part& part) { part.rated_a.reset(); }) ==
          "DP-050/rated_a is missing; expected a number from 0.1 to 6300 A\n");
    CHECK(after("DP-050", [](Part& part) { part.efficiency_row.clear(); }) ==
          "DP-050/efficiency_row is missing; expected a text on one line\n");
    CHECK(after("BE-0405", [](Part& part) { part.plate_width_mm.reset(); }) ==
          "BE-0405/plate_width_mm is missing; expected a number from 1 to 5000 mm\n");
    CHECK(after("BE-0405", [](Part& part) { part.ip_mark.clear(); }) ==
          "BE-0405/protection has neither an IP mark nor a type mark\n");
    CHECK(after("BE-0507", [](Part& part) { part.ip_mark.clear(); }).empty());
    CHECK(after("LC-C24", [](Part& part) { part.own_a.reset(); }) ==
          "LC-C24/own_a has neither an own current nor an own power\n");
}

TEST_CASE("figures that contradict each other are named") {
    CHECK(after("VC-202", [](Part& part) { part.valid_until = Date::of(2026, 1, 1); }) ==
          "VC-202/valid_until is 2026-01-01; expected at least price_date, which is 2026-10-05\n");
    CHECK(after("BE-0405", [](Part& part) { part.width_mm = 300; }) ==
          "BE-0405/width_mm is 300; expected at least plate_width_mm, which is 350\n");
    CHECK(after("VC-202", [](Part& part) { part.successor = "VC-999"; }) ==
          "VC-202/successor is followed by VC-999, which is not in the book\n");
}

TEST_CASE("what a platform lacks is named") {
    CHECK(without([](const Part& part) {
              return part.kind == "controller" && part.platform == "slice";
          }) == "slice/ the platform has no controller\n");
    CHECK(without([](const Part& part) {
              return part.kind == "module" && part.platform == "slice";
          }) == "slice/ the platform has no module with channels\n");
    auto parts = demo();
    for (Part& part : parts)
        if (part.platform == "slice") part.stations_max = 0;
    CHECK(lines(check_book(PriceBook(parts, 1))) ==
          "slice/ the platform has a head, but no controller may lead one\n");
}

TEST_CASE("what every panel takes is missed") {
    for (const char* kind :
         {"supply", "incoming", "protection", "terminal", "rail", "duct", "wire", "enclosure"})
        CHECK(without([&](const Part& part) { return part.kind == kind; }) ==
              "/ the book has no part of the kind " + std::string(kind) + "\n");
    CHECK(check_book(PriceBook{}).size() == 9);
}

TEST_CASE("a signal that a platform does not serve is a remark") {
    CHECK(lines(book_remarks(PriceBook(demo(), 1), {"DI", "DO", "DI_SAFE", "IO_LINK"})) ==
          "compact/ no module of the platform serves DI_SAFE, IO_LINK\n");
}
