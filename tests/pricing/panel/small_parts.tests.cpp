#include <catch2/catch.hpp>

#include "pricing/panel/small_parts.h"
#include "tests/pricing/panel/electrical_tables.h"

using namespace backplate;
using namespace backplate::electrical;

namespace {

const CableRow& cable(std::string_view key) {
    for (const CableRow& row : starter_rules().cables)
        if (row.key == key) return row;
    throw std::runtime_error("no cable " + std::string(key));
}

std::vector<SmallPart> all_glands() {
    std::vector<SmallPart> glands;
    for (const SmallPartRow& row : starter_rules().small_parts)
        if (row.driver == "cable" && row.per.number() == 1) glands.push_back({&row, nullptr});
    return glands;
}

/// Pieces of a function on the small parts' lines of a box with these points.
SmallParts parts_of(const std::string& points, const PriceBook& book) {
    const BidRequest request = request_of(box_request(points));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    return small_parts(book, facts, housing_of(book, facts),
                       labour_plan(request, request.boxes[0], starter_rules()));
}

} // namespace

// K(n) of equal circles in a circle: 2, 2.155, 2.414, 2.701, 3, 3.813, 4.030, 4.864
// (electrical-facts 4). 0.5 mm² unscreened as seen at one maker: 3 cores 5.1, 4 cores 5.5, 7
// cores 6.7 mm.
TEST_CASE("a cable is as thick as its bundle and twice its sheath") {
    const RuleBook& rules = starter_rules();
    const CableRow& control = cable("DI contact");
    CHECK(*cable_diameter(rules, control, 2) == Approx(2 * 1.9 + 2 * 0.5));
    CHECK(*cable_diameter(rules, control, 3) == Approx(5.1).margin(0.05));
    CHECK(*cable_diameter(rules, control, 4) == Approx(5.5).margin(0.1));
    CHECK(*cable_diameter(rules, control, 7) == Approx(6.7).margin(0.05));
    CHECK(*cable_diameter(rules, control, 6) == *cable_diameter(rules, control, 7));
    CHECK(*cable_diameter(rules, control, 19) == Approx(4.864 * 1.9 + 1));
    CHECK_FALSE(cable_diameter(rules, control, 38));
}

// Check ME4 of the electrical tables: the smallest gland that fits, none beyond the table.
TEST_CASE("the smallest gland that takes the cable") {
    const auto glands = all_glands();
    const auto size = [&](double diameter) {
        const SmallPart* gland = gland_for(glands, diameter);
        return gland ? gland->row->function : std::string("none");
    };
    CHECK(size(3.0) == "gland M12");
    CHECK(size(6.0) == "gland M12");
    CHECK(size(6.1) == "gland M16");
    CHECK(size(12.0) == "gland M20");
    CHECK(size(12.5) == "gland M25");
    CHECK(size(17.0) == "gland M32");
    CHECK(size(46.0) == "none");
}

TEST_CASE("as many glands as cables, rounded up once over all sizes") {
    const PriceBook book(demo_parts(), 1);
    // four points a cable: 6 + 5 points are 2.75 cables; 4 × 2 cores 7.3 mm, 4 × 3 cores 11.2 mm
    const SmallParts small =
        parts_of(R"({"signal": "DI", "count": 6}, {"signal": "RTD", "count": 5})", book);
    REQUIRE(small.cables.size() == 2);
    CHECK(small.cables[0].gland.row->function == "gland M16");
    CHECK(small.cables[0].cables == 2);
    CHECK(small.cables[0].most_mm == Approx(3.304 * 1.9 + 1));
    CHECK(small.cables[1].gland.row->function == "gland M25");
    CHECK(small.cables[1].cables == 1);
    CHECK(small.without_gland == 0);
}

TEST_CASE("a row without a part is left to the sundries") {
    auto parts = demo_parts();
    const PriceBook full(parts, 1);
    std::erase_if(parts, [](const Part& part) { return part.function == "earth bar"; });
    const PriceBook without(parts, 1);
    const std::string points = R"({"signal": "DI", "count": 6})";
    const SmallParts all = parts_of(points, full), less = parts_of(points, without);
    CHECK(all.left.empty());
    REQUIRE(less.left.size() == 1);
    CHECK(less.left[0]->function == "earth bar");
    CHECK(less.shares.size() + 1 == all.shares.size());
    CHECK(less.lines.size() + 1 == all.lines.size());
}

TEST_CASE("what the request names itself is no second line") {
    const PriceBook book(demo_parts(), 1);
    const BidRequest request = request_of(
        box_request(R"({"signal": "DI", "count": 6})", R"(, "equipment": [{"part": "KL-P02"}])"));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    const LabourPlan plan = labour_plan(request, request.boxes[0], starter_rules());
    for (const SmallPart& line : small_parts(book, facts, housing_of(book, facts), plan).lines)
        CHECK(line.row->function != "rating plate");
}

// By hand: a gland M16 costs 0.7875 and 6 min of the shop for its hole, a plate of 24 its price and
// 40 min for its opening.
TEST_CASE("many cables share an entry plate where that costs less") {
    const RuleBook& rules = starter_rules();
    const BidRequest request = request_of(box_request(R"({"signal": "DI", "count": 4})"));
    const LabourPlan plan = labour_plan(request, request.boxes[0], rules);
    const auto row = [&](std::string_view function) {
        for (const SmallPartRow& each : rules.small_parts)
            if (each.function == function) return &each;
        throw std::runtime_error("no row");
    };
    const double hour = rules.rates.at("shop").number();
    const auto entry = [&](std::int64_t cables, const char* plate_price, double diameter = 8) {
        Part gland, plate;
        gland.list = Money::whole(1);
        plate.list = Money::parse(plate_price);
        const std::vector<SmallPart> plates{{row("entry plate 24"), &plate}};
        const std::vector<GlandCount> glands{{{row("gland M16"), &gland}, cables, 5, diameter}};
        std::int64_t on_plates = 0;
        for (const GlandCount& own : cheapest_entry(glands, plates, 1, plan))
            if (own.gland.part == &plate) on_plates += own.cables;
        return on_plates;
    };
    // 6 min a hole, 40 min a rectangular opening, and the lead of the job, 5 % of all other hours
    const double lead = 0.05 * rules.rates.at("project").number() / hour;
    const double gain = 24 + (24 * hour / 10 - hour * 2 / 3) * (1 + lead); // of a full plate
    const auto price = [](double value) { return number_text(value, 2); };
    CHECK(entry(24, price(gain - 1).c_str()) == 24);
    CHECK(entry(24, price(gain + 1).c_str()) == 0);
    CHECK(entry(30, price(gain - 1).c_str()) == 24); // the six others keep their glands
    CHECK(entry(47, price(gain - 10).c_str()) == 47);
    CHECK(entry(24, price(gain - 1).c_str(), 12.1) == 0); // too thick for the plate
    CHECK(entry(3, "1.00") == 0); // the opening alone takes longer than three holes
}

// A feed of 95 mm² three-phase with neutral and protective conductor: 2.701 × 16.4 + 2 × 2.5 mm.
TEST_CASE("cables of thick feeds have a diameter and a gland") {
    const RuleBook& rules = starter_rules();
    CHECK(*cable_diameter(rules, cable("feed 95 mm²"), 5) == Approx(49.3).margin(0.05));
    CHECK(gland_for(all_glands(), 49.3)->row->function == "gland M75");
    CHECK(*cable_diameter(rules, cable("feed 70 mm²"), 5) < 45);
}
