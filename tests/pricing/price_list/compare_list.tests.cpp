#include "pricing/price_list/compare_list.h"

#include <catch2/catch.hpp>

#include "tests/pricing/price_list/sample_lists.h"

using namespace backplate;
using sample::part;

namespace {

ListComparison compare(const std::vector<ListCells>& rows, const std::vector<Part>& parts,
                       const PriceMap& map = {}) {
    return compare_list(sample::read(rows, map), parts, sample::list_rules());
}

/// The comparison of one line with one part.
ListLine one(const std::string& price, const Part& held, const std::string& per = "",
             const std::string& date = "", const std::string& currency = "") {
    return compare({{"Article No", "List Price", "Per", "Date", "Currency"},
                    {held.key, price, per, date, currency}},
                   {held})
        .lines.at(0);
}

std::string word(const ListLine& line) {
    return std::string(outcome_words[static_cast<std::size_t>(line.outcome)]);
}

} // namespace

TEST_CASE("each outcome by its net price per piece") {
    Part held = part("A", "100.00");
    held.discounts = {Percent::whole(20)};
    struct Row {
        const char *price, *per, *word;
    };
    const Row row = GENERATE(Row{"100.00", "", "unchanged"}, Row{"100.01", "", "dearer"},
                             Row{"99.99", "", "cheaper"}, Row{"10000.00", "100", "unchanged"},
                             Row{"125.00", "", "dearer"}, Row{"125.01", "", "suspicious"},
                             Row{"75.00", "", "cheaper"}, Row{"74.99", "", "suspicious"},
                             Row{"0.00", "", "suspicious"}, Row{"on request", "", "suspicious"});
    CAPTURE(row.price, row.per);
    const auto line = one(row.price, held, row.per);
    CHECK(word(line) == row.word);
    CHECK(line.before == Money::whole(80));
}

TEST_CASE("a change is told in percent and applied to the list price alone") {
    Part held = part("A", "600.00");
    held.discounts = {Percent::whole(9), Percent::whole(21), Percent::whole(15)};
    held.width_mm = 45;
    const auto line = one("660.00", held);
    CHECK(line.change == Percent::whole(10));
    // trade-practice 4.1: 9/21/15 is the factor 0.611065; 660 of it 403.3029.
    CHECK(line.after == Money::parse("403.3029"));
    REQUIRE(line.part_after);
    Part wanted = held;
    wanted.list = Money::whole(660);
    CHECK(*line.part_after == wanted);
    CHECK(line.fields == std::vector<std::string>{"list"});
}

TEST_CASE("a net price takes the discounts away") {
    Part held = part("A", "100.00");
    held.discounts = {Percent::whole(20)};
    const auto line = compare({{"Article No", "Net Price"}, {"A", "82.00"}}, {held}).lines.at(0);
    CHECK(line.after == Money::whole(82));
    CHECK(line.part_after->discounts.empty());
    CHECK(line.change == Percent::parse("2.5"));
}

TEST_CASE("the price of a pack is suspicious") {
    Part held = part("A", "0.62");
    held.pack = 50;
    const auto near = one("31.00", held);
    CHECK(word(near) == "suspicious");
    CHECK_THAT(near.reasons.at(0), Catch::Equals("looks like the price of a pack of 50"));
    const auto stated = one("31.00", held, "pack");
    CHECK(word(stated) == "suspicious");
    CHECK(stated.after == Money::parse("0.62"));
    CHECK(stated.reasons.size() == 1);
}

TEST_CASE("currency, date, maker and a first price") {
    Part held = part("A", "10.00");
    held.price_date = Date::of(2026, 10, 5);
    const auto foreign = one("10.00", held, "", "", "USD");
    CHECK(word(foreign) == "suspicious");
    CHECK_FALSE(foreign.applicable);
    CHECK_FALSE(foreign.change);
    CHECK(word(one("10.00 EUR", held)) == "unchanged");
    CHECK(word(one("$10.00", held)) == "suspicious");
    CHECK(word(one("10.00", held, "", "2026-10-04")) == "suspicious");
    const auto renewed = one("10.00", held, "", "2026-12-01");
    CHECK(word(renewed) == "unchanged");
    CHECK(renewed.fields == std::vector<std::string>{"price_date"});
    CHECK(renewed.part_after->price_date == Date::of(2026, 12, 1));
    held.list.reset();
    CHECK(word(one("10.00", held)) == "first_price");
}

TEST_CASE("keys match exactly, by the map, by the second key, then folded, never by guess") {
    const std::vector<Part> parts{part("VC-101", "10.00"), part("VC 101", "20.00"),
                                  part("QS-1", "30.00"), part("4012345", "40.00")};
    PriceMap map;
    map.keys = {{"90-7", "QS-1"}};
    const auto found = compare({{"Article No", "EAN", "List Price"},
                                {"VC-101", "", "10.00"},
                                {"90-7", "", "30.00"},
                                {"other", "4012345", "40.00"},
                                {"vc101", "", "10.00"},
                                {"VC-1O1", "", "10.00"}},
                               parts, map);
    CHECK(found.lines.at(0).part == "VC-101");
    CHECK(found.lines.at(1).part == "QS-1");
    CHECK(found.lines.at(2).part == "4012345");
    CHECK(word(found.lines.at(3)) == "unclear");
    CHECK_THAT(found.lines.at(3).reasons.at(0), Catch::Contains("VC-101, VC 101"));
    CHECK(word(found.lines.at(4)) == "new");
    const auto folded =
        compare({{"Article No", "List Price"}, {"qs 1", "30.00"}}, parts).lines.at(0);
    CHECK(folded.part == "QS-1");
    CHECK(folded.key == "qs 1");
}

TEST_CASE("a part that two lines name is unclear in both, equal prices or not") {
    const auto found = compare({{"Article No", "List Price"}, {"A-1", "10.00"}, {"a1", "10.00"}},
                               {part("A-1", "9.00")});
    CHECK(word(found.lines.at(0)) == "unclear");
    CHECK(found.lines.at(0).reasons.at(0) == "row 3 names the same part");
    CHECK(word(found.lines.at(1)) == "unclear");
    CHECK(parts_to_put(found, {true}).empty());
}

TEST_CASE("parts that the list leaves out are gone by its makers alone") {
    const std::vector<Part> parts{part("A", "1.00"), part("B", "2.00"),
                                  part("C", "3.00", "Isbrook")};
    const auto found = compare({{"Article No", "List Price"}, {"A", "1.00"}}, parts);
    REQUIRE(found.lines.size() == 2);
    CHECK(word(found.lines.at(1)) == "gone");
    CHECK(found.lines.at(1).part == "B");
    PriceMap map;
    map.maker = "Isbrook";
    const auto other = compare({{"Article No", "List Price"}, {"A", "1.00"}}, parts, map);
    CHECK(word(other.lines.at(0)) == "new");
    CHECK(other.lines.at(1).part == "C");
}

TEST_CASE("what a list calls discontinued needs no price, and names its successor") {
    const std::vector<Part> parts{part("A-1", "1.00"), part("B", "2.00"), part("C", "3.00"),
                                  part("D", "4.00")};
    PriceMap map;
    map.states = {{"withdrawn", "discontinued"}};
    const auto found = compare({{"Article No", "List Price", "Status", "Replaced by", "Date"},
                                {"A-1", "", "withdrawn", "b", "2026-11-01"},
                                {"B", "2.10", "", "", "2026-11-01"},
                                {"C", "3.10", "withdrawn", "Z-9", "2026-11-01"},
                                {"D", "40.00", "withdrawn", "", "2026-11-01"}},
                               parts, map);
    const ListLine& bare = found.lines.at(0);
    CHECK(word(bare) == "discontinued");
    CHECK(bare.reasons == std::vector<std::string>{"followed by B"});
    REQUIRE(bare.part_after);
    Part wanted = parts[0];
    wanted.state = "discontinued";
    wanted.successor = "B";
    CHECK(*bare.part_after == wanted); // the price held keeps its day
    CHECK(word(found.lines.at(1)) == "dearer");
    const ListLine& unknown = found.lines.at(2);
    CHECK(word(unknown) == "discontinued");
    CHECK(unknown.reasons.at(0) == "followed by Z-9, which is no part of the price book");
    CHECK(unknown.part_after->successor.empty());
    CHECK(unknown.part_after->list == Money::parse("3.10"));
    CHECK(word(found.lines.at(3)) == "suspicious");
    CHECK(parts_to_put(found, {}).size() == 3);
}

TEST_CASE("gone parts become discontinued where that is asked for") {
    Part ended = part("C", "3.00");
    ended.state = "discontinued";
    const auto found = compare({{"Article No", "List Price"}, {"A", "1.00"}},
                               {part("A", "1.00"), part("B", "2.00"), ended});
    CHECK(parts_to_put(found, {}).empty());
    const auto put = parts_to_put(found, {false, true});
    REQUIRE(put.size() == 1);
    CHECK(put[0].key == "B");
    CHECK(put[0].state == "discontinued");
    CHECK(put[0].list == Money::whole(2));
}

TEST_CASE("suspicious lines are put only where accepted, those without use never") {
    const auto found =
        compare({{"Article No", "List Price", "Currency"},
                 {"A", "2.00", "EUR"},
                 {"B", "2.00", "EUR"},
                 {"C", "0", "EUR"},
                 {"D", "2.00", "GBP"}},
                {part("A", "1.90"), part("B", "1.00"), part("C", "1.00"), part("D", "1.90")});
    CHECK(parts_to_put(found, {}).size() == 1);
    const auto all = parts_to_put(found, {true});
    REQUIRE(all.size() == 2);
    CHECK(all[1].key == "B");
}

TEST_CASE("a list of 5,000 lines: counts and sums") {
    std::vector<Part> parts;
    std::vector<ListCells> rows{{"Article No", "List Price"}};
    for (int i = 0; i < 5000; ++i) {
        const std::string key = "P-" + std::to_string(i);
        const Money held = Money::whole(100 + i);
        if (i % 10 != 9) parts.push_back(part(key, held.text(2).c_str())); // 500 lines are new
        const Money offered = i % 10 < 4   ? held.ratio(103, 100)
                              : i % 10 < 6 ? held.ratio(98, 100)
                              : i % 10 < 7 ? held.times(2)
                                           : held;
        rows.push_back({i % 2 ? "p " + std::to_string(i) : key, offered.text(2)});
    }
    parts.push_back(part("Q-1", "7.00"));
    const auto found = compare(rows, parts);
    const auto sum = [&](ListOutcome outcome) {
        return found.sums[static_cast<std::size_t>(outcome)];
    };
    CHECK(sum(ListOutcome::dearer).lines == 2000);
    CHECK(sum(ListOutcome::cheaper).lines == 1000);
    CHECK(sum(ListOutcome::suspicious).lines == 500);
    CHECK(sum(ListOutcome::unchanged).lines == 1000);
    CHECK(sum(ListOutcome::fresh).lines == 500);
    CHECK(sum(ListOutcome::gone).lines == 1);
    CHECK(sum(ListOutcome::unclear).lines == 0);
    // Held, dearer: 500 decades of 4 × 100 + 0 + 1 + 2 + 3 and four times ten times the decade:
    // 500 × 406 + 40 × (0 + … + 499) = 203,000 + 4,990,000.
    CHECK(sum(ListOutcome::dearer).before == Money::whole(5'193'000));
    CHECK(sum(ListOutcome::dearer).after == Money::whole(5'193'000).ratio(103, 100));
    // Suspicious: 500 × 106 + 10 × 124,750 = 1,300,500, twice that in the list.
    CHECK(sum(ListOutcome::suspicious).before == Money::whole(1'300'500));
    CHECK(sum(ListOutcome::suspicious).after == Money::whole(2'601'000));
    CHECK(parts_to_put(found, {}).size() == 3000);
    CHECK(parts_to_put(found, {true}).size() == 3500);
}
