#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>

#include "catalog/exchange/price_csv.h"
#include "pricing/book/part_fields.h"
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
    for (const auto& fault : faults) text += fault_line(fault) + "\n";
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

TEST_CASE("what a part lacks is named with what it means for an estimate") {
    CHECK(after("VC-202",
                [](Part& part) {
                    part.accessories = {{"VC-C99", 1}};
                }) ==
          "VC-202 needs VC-C99, which is not in the book: its price is left out (column "
          "accessory: keys of parts such as CON-16 or CON-16*2;END-1)\n");
    CHECK(after("VC-202", [](Part& part) { part.width_mm.reset(); }) ==
          "VC-202 has no width: no room can be found for it (column width_mm: a number from 0 to "
          "5000 mm)\n");
    CHECK(after("VC-202", [](Part& part) { part.own_a.reset(); }) ==
          "VC-202 has no own current: its share of the 24 V load and of the heat is unknown "
          "(column own_a: a number from 0 to 200 A)\n");
    CHECK(after("BE-0405", [](Part& part) { part.ip_mark.clear(); }) ==
          "BE-0405 has neither an IP mark nor a type mark: it meets no protection that is asked "
          "(column protection: a mark such as IP54, IP66/IP67 or Type 12)\n");
    CHECK(after("BE-0507", [](Part& part) { part.ip_mark.clear(); }).empty());
    const struct {
        const char* key;
        void (*take)(Part&);
        const char* words;
    } rows[] = {
        {"VC-202", [](Part& p) { p.groups.clear(); }, "has no channels: it serves no point"},
        {"VC-202", [](Part& p) { p.places = 0; }, "how many modules fit side by side"},
        {"VC-202", [](Part& p) { p.max_c.reset(); }, "whether it stands the heat inside"},
        {"VC-202", [](Part& p) { p.depth_mm.reset(); }, "whether the door closes over it"},
        {"DP-050", [](Part& p) { p.rated_a.reset(); }, "it can be chosen for no load"},
        {"DP-050", [](Part& p) { p.efficiency_row.clear(); }, "its own heat is unknown"},
        {"BE-0405", [](Part& p) { p.plate_width_mm.reset(); }, "nothing can be placed in it"},
        {"BE-0405", [](Part& p) { p.material.clear(); }, "the heat that its walls let out"},
        {"LC-C24", [](Part& p) { p.own_a.reset(); }, "neither an own current nor an own power"},
        {"VC-101", [](Part& p) { p.bus_ma = 0; }, "gives no bus current"},
    };
    for (const auto& row : rows) {
        CAPTURE(row.key, row.words);
        const std::string said = after(row.key, row.take);
        CHECK_THAT(said, Catch::StartsWith(row.key) && Catch::Contains(row.words));
        CHECK(std::count(said.begin(), said.end(), '\n') == 1);
    }
}

TEST_CASE("every needed field says what its absence means") {
    for (const auto& field : part_fields()) {
        Part part;
        part.key = "X";
        for (const auto kind : part_kinds())
            if (needed_by(field, kind)) part.kind = kind;
        if (part.kind.empty() || field.key == "kind" || field.key == "part") continue;
        CAPTURE(field.key);
        const std::string said = lines(check_book(PriceBook({part}, 1)));
        CHECK_THAT(said, Catch::Contains("(column " + std::string(field.key) + ":"));
        CHECK_THAT(said, !Catch::Contains("it cannot be used"));
    }
}

TEST_CASE("an allowance may leave out what only a data sheet states") {
    const auto as_allowance = [](Part& part) {
        part.allowance = true;
        part.height_mm.reset();
        part.depth_mm.reset();
        part.max_c.reset();
    };
    CHECK(after("VC-202", as_allowance).empty());
    CHECK_THAT(after("VC-202",
                     [&](Part& part) {
                         as_allowance(part);
                         part.list.reset();
                     }),
               Catch::StartsWith("VC-202 has no list price: an allowance without a price is no"));
    for (const auto& [take, words] :
         {std::pair<void (*)(Part&), const char*>{[](Part& p) { p.width_mm.reset(); }, "no width"},
          {[](Part& p) { p.own_a.reset(); }, "no own current"},
          {[](Part& p) { p.groups.clear(); }, "no channels"}}) {
        CAPTURE(words);
        CHECK_THAT(after("VC-202",
                         [&, take = take](Part& part) {
                             as_allowance(part);
                             take(part);
                         }),
                   Catch::Contains(words));
    }
}

TEST_CASE("figures that contradict each other are named") {
    CHECK(after("VC-202", [](Part& part) { part.valid_until = Date::of(2026, 1, 1); }) ==
          "VC-202 has valid_until 2026-01-01; expected at least price_date, 2026-10-05 (column "
          "valid_until: a date such as 2026-11-24)\n");
    CHECK(after("BE-0405", [](Part& part) { part.width_mm = 300; }) ==
          "BE-0405 has width_mm 300; expected at least plate_width_mm, 350 (column width_mm: a "
          "number "
          "from 0 to 5000 mm)\n");
    CHECK(after("VC-202", [](Part& part) { part.successor = "VC-999"; }) ==
          "VC-202 is followed by VC-999, which is not in the book (column successor: a text on one "
          "line)\n");
}

TEST_CASE("what a platform lacks is named") {
    CHECK(without([](const Part& part) {
              return part.kind == "controller" && part.platform == "slice";
          }) == "platform slice has no controller: no box can be led by it\n");
    CHECK(without([](const Part& part) {
              return part.kind == "module" && part.platform == "slice";
          }) == "platform slice has no module with channels: it serves no point\n");
    auto parts = demo();
    for (Part& part : parts)
        if (part.platform == "slice") part.stations_max = 0;
    CHECK(lines(check_book(PriceBook(parts, 1))) ==
          "platform slice has a head, but no controller may lead one (column stations_max)\n");
}

TEST_CASE("what every panel takes is missed") {
    for (const char* kind :
         {"supply", "incoming", "protection", "terminal", "rail", "duct", "wire", "enclosure"})
        CHECK(without([&](const Part& part) { return part.kind == kind; }) ==
              "the book has no part of the kind " + std::string(kind) +
                  ": no panel can be built without\n");
    CHECK(check_book(PriceBook{}).size() == 9);
}

TEST_CASE("prices and bus currents that say little are remarks") {
    const auto remarks = [](const char* key, void (*change)(Part&)) {
        auto parts = demo();
        for (Part& part : parts)
            if (part.key == key) change(part);
        return lines(book_remarks(PriceBook(parts, 1), {}));
    };
    CHECK(remarks("VC-202", [](Part&) {}).empty());
    CHECK_THAT(remarks("VC-202", [](Part& part) { part.list.reset(); }),
               Catch::StartsWith("VC-202 has no price: it is chosen for nothing"));
    CHECK_THAT(remarks("VC-202", [](Part& part) { part.price_date.reset(); }),
               Catch::StartsWith("VC-202 has a price without a date"));
    CHECK_THAT(remarks("VC-202", [](Part& part) { part.bus_ma = 0; }),
               Catch::StartsWith("VC-202 has no bus current"));
    CHECK_THAT(remarks("VC-202", [](Part& part) { part.allowance = true; }),
               Catch::StartsWith("VC-202 is an allowance"));
}

TEST_CASE("a signal that a platform does not serve is a remark") {
    auto parts = demo();
    const auto serves = [](const Part& part, const char* signal) {
        for (const ChannelGroup& group : part.groups)
            if (std::ranges::count(group.signals, std::string(signal)) > 0) return true;
        return false;
    };
    std::erase_if(parts, [&](const Part& part) {
        return part.platform == "compact" && (serves(part, "DI_SAFE") || serves(part, "IO_LINK"));
    });
    CHECK(lines(book_remarks(PriceBook(parts, 1), {"DI", "DO", "DI_SAFE", "IO_LINK"})) ==
          "platform compact serves no DI_SAFE, IO_LINK: such points need an interface or another "
          "platform\n");
}
