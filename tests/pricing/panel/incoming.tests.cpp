#include <catch2/catch.hpp>

#include "pricing/panel/choose_panel.h"
#include "pricing/panel/conductors.h"
#include "pricing/panel/mains.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Part on_mains(const char* kind, double low_v, double high_v, int phases, const char* form = "") {
    Part part;
    part.kind = kind;
    part.input_min_v = low_v;
    part.input_max_v = high_v;
    part.phases = phases;
    part.input_form = form;
    return part;
}

Site mains(double volts, int phases, double hz, bool neutral) {
    Site site;
    site.volts = volts;
    site.phases = phases;
    site.hz = hz;
    site.neutral = neutral;
    return site;
}

/// The panel of 24 inputs on the supply given, from the demo price book.
struct Built {
    PriceBook book = demo_book();
    BidRequest request;
    PanelChoice choice;

    explicit Built(const std::string& supply, const std::string& job = {})
        : request(request_of(box_request(R"({"signal": "DI", "count": 24})",
                                         R"(, "site": {"supply": )" + supply + "}", job))) {
        Work work;
        choice = choose_panel(request, request.boxes[0], book, starter_rules(), work);
    }
    const PanelDesign& design() const {
        if (!choice.design)
            throw std::runtime_error(choice.limits.empty() ? "?" : choice.limits.front());
        return *choice.design;
    }
    std::int64_t pieces(const std::string& part) const {
        std::int64_t sum = 0;
        for (const BillItem& item : design().bill)
            if (item.part && item.part->key == part) sum += item.quantity;
        return sum;
    }
};

} // namespace

TEST_CASE("how a part lies on the mains") {
    const Part wide = on_mains("supply", 85, 264, 1), three = on_mains("supply", 320, 550, 3);
    const Part battery = on_mains("supply", 88, 160, 1, "dc");
    CHECK(volts_at(wide, mains(230, 1, 50, true)) == 230.0);
    CHECK_FALSE(volts_at(wide, mains(400, 3, 50, false)));
    CHECK(*volts_at(wide, mains(400, 3, 50, true)) == Approx(230.94).margin(0.01));
    CHECK(volts_at(three, mains(400, 3, 50, true)) == 400.0);
    CHECK_FALSE(volts_at(three, mains(400, 1, 50, false)));
    CHECK_FALSE(volts_at(wide, mains(120, 1, 0, true))); // an AC input is no DC input
    CHECK(volts_at(battery, mains(120, 1, 0, true)) == 120.0);
    CHECK_FALSE(volts_at(battery, mains(120, 1, 60, true)));
    CHECK(volts_at(on_mains("supply", 88, 264, 1, "ac_dc"), mains(120, 1, 0, true)) == 120.0);
    Part fan; // fed at 24 V: not tied to the mains
    fan.kind = "cooling";
    CHECK(fits_mains(fan, mains(120, 1, 0, true)));
}

TEST_CASE("input current by phases") {
    // electrical-facts check values PS3 and PS4: 240 W at 92 %, 230 V, power factor 0.95 draws
    // 1.194 A; 480 W at 94 %, 3 × 400 V, power factor 0.90 draws 0.819 A.
    const Part one = on_mains("supply", 85, 264, 1), three = on_mains("supply", 320, 550, 3);
    CHECK(240 / 0.92 * amps_per_watt(one, mains(230, 1, 50, true)) / 0.95 ==
          Approx(1.194).margin(0.001));
    CHECK(480 / 0.94 * amps_per_watt(three, mains(400, 3, 50, false)) / 0.90 ==
          Approx(0.819).margin(0.001));
    // between line and neutral of 3 × 400 V as on 231 V
    CHECK(amps_per_watt(one, mains(400, 3, 50, true)) == Approx(1 / 230.94).epsilon(1e-4));
    CHECK(power_factor_on(mains(110, 1, 0, true), starter_rules()) == 1);
}

TEST_CASE("poles of the incoming device") {
    // IEC 60364-4-43 and NEC 240.15(B), from memory: every line conductor opens.
    const RuleBook& rules = starter_rules();
    CHECK(poles_needed(mains(230, 1, 50, true), rules) == 1);
    CHECK(poles_needed(mains(230, 1, 50, false), rules) == 2);
    CHECK(poles_needed(mains(400, 3, 50, true), rules) == 3);
    CHECK(poles_needed(mains(110, 1, 0, true), rules) == 2);
    CHECK(live_conductors(mains(230, 1, 50, false)) == 2);
    CHECK(live_conductors(mains(400, 3, 50, true)) == 4);
    CHECK(live_conductors(mains(400, 3, 50, false)) == 3);
}

TEST_CASE("without neutral breaker and switch open both lines") {
    const Built plain(R"({"volts": 230})"), lines(R"({"volts": 230, "neutral": false})");
    CHECK(plain.design().incoming.breaker->poles == 1);
    CHECK(lines.design().incoming.breaker->poles == 2);
    CHECK(lines.design().incoming.main_switch->poles == 2);
    CHECK(lines.design().incoming.load.value == Approx(plain.design().incoming.load.value));
}

TEST_CASE("direct current mains") {
    for (const char* supply : {R"({"volts": 110, "hz": 0})", R"({"volts": 24, "hz": 0})"}) {
        CAPTURE(supply);
        const Built built(supply);
        const PanelDesign& design = built.design();
        CHECK(design.supply.part->input_form == "dc");
        CHECK(design.incoming.breaker->input_form == "dc");
        CHECK(design.incoming.breaker->poles == 2);
        CHECK(design.incoming.main_switch->input_form == "dc");
        const double watts =
            design.all_on.value * 24 +
            supply_loss(design.supply, design.all_on, starter_rules().supply).value;
        CHECK(design.incoming.load.value == Approx(watts / built.request.boxes[0].site.volts));
    }
    const Built without(R"({"volts": 400, "hz": 0})");
    CHECK_FALSE(without.choice.design);
    CHECK(without.choice.limits.front() == "no supply for 400 V DC in the price book");
}

TEST_CASE("every feed has its incoming device, switch, terminals and supply") {
    const Built one(R"({"feeds": 1})"), two(R"({"feeds": 2})");
    const IncomingChoice& incoming = two.design().incoming;
    CHECK(two.pieces(incoming.breaker->key) == 2);
    CHECK(two.pieces(incoming.main_switch->key) == 2);
    CHECK(two.design().supply.quantity == 2);
    CHECK(two.design().terminals - one.design().terminals ==
          3 + 3); // of the feed and behind its device
    CHECK(two.pieces(incoming.earth_terminal->key) -
              one.pieces(one.design().incoming.earth_terminal->key) ==
          1);
}

TEST_CASE("three phases: a supply on three or on one and the neutral") {
    const Built neutral(R"({"volts": 400, "phases": 3})");
    const Built lines(R"({"volts": 400, "phases": 3, "neutral": false})");
    CHECK(neutral.design().incoming.breaker->phases == 3);
    CHECK(neutral.design().incoming.breaker->poles.value_or(0) >= 3);
    CHECK(lines.design().supply.part->phases == 3);
    CHECK(price_of(neutral.design().supply) <= price_of(lines.design().supply));
}

TEST_CASE("conductors behind the devices") {
    // IEC 60204-1 table 6 column B1; NEC 310.16 at 60 °C to 100 A, 75 °C above (110.14(C)), and
    // not below 1.5 mm² and 14 AWG (starter rows).
    const RuleBook& rules = starter_rules();
    const auto size = [&](bool american, double amps, bool incoming) {
        const Conductor* conductor = conductor_for(rules, american, amps, incoming);
        return conductor ? conductor->size : std::string("none");
    };
    CHECK(size(false, 6, true) == "1.5 mm²");
    CHECK(size(false, 13.5, true) == "1.5 mm²");
    CHECK(size(false, 16, true) == "2.5 mm²");
    CHECK(size(false, 63, true) == "25 mm²");
    CHECK(size(false, 250, true) == "none");
    CHECK(size(true, 15, true) == "14 AWG");
    CHECK(size(true, 20, true) == "12 AWG");
    CHECK(size(true, 30, true) == "10 AWG");
    CHECK(size(true, 100, true) == "1 AWG"); // 110 A at 60 °C; 3 AWG has 85, 2 AWG 95
    CHECK(size(true, 110, true) == "2 AWG"); // 115 A at 75 °C
    CHECK(size(false, 2.5, false) == "0.75 mm²");
    CHECK(size(false, 20, false) == "4 mm²");
    CHECK(size(true, 2.5, false) == "22 AWG"); // UL 508A table 38.1, from memory: 3 A
    CHECK(size(true, 10, false) == "16 AWG");
    CHECK(size(true, 20, false) == "12 AWG");
}

TEST_CASE("thicker wire for mains and supply comes out of the wires counted") {
    const Built built(R"({"volts": 230})");
    const PanelDesign& design = built.design();
    const SearchFacts& search = *built.choice.search;
    REQUIRE(design.incoming.wire != search.parts.wire);
    CHECK(*design.incoming.wire->section_mm2 >= design.incoming.conductor->order.number());
    const double length = starter_rules().wires.at("length").number();
    const std::int64_t thick = incoming_wires(search.facts);
    CHECK(thick == 2 * 2); // two wires for line and neutral each
    CHECK(built.pieces(design.incoming.wire->key) == need_in(thick * length, 1));
    CHECK(built.pieces(search.parts.wire->key) == need_in((design.wires - thick) * length, 1));
    CHECK(design.incoming.earth_terminal->function == "protective conductor");
    CHECK(built.pieces(design.incoming.earth_terminal->key) == 1);
}

// electrical-facts 2: NEC 310.15(C)(1) seen, IEC 60204-1 table D.2 from memory; how many lie
// together are rows of wires_together.
TEST_CASE("conductors that lie together carry less") {
    RuleBook rules = starter_rules();
    const auto together = [&](const std::string& supply, bool american, bool of_feed, int units) {
        const BidRequest request = request_of(box_request(
            R"({"signal": "DI", "count": 4})", R"(, "site": {"supply": )" + supply + "}",
            american ? R"(, "job": {"practice": "north_america"})" : ""));
        const PriceBook book = demo_book();
        BoxFacts facts = box_facts(request, request.boxes[0], book, rules);
        return (of_feed ? place_of_feed(facts) : place_of_supplies(facts, units)).together;
    };
    const std::string two = R"({"feeds": 2})";
    const std::string three = R"({"volts": 400, "phases": 3})";
    CHECK(together(two, false, true, 0) == 1); // each in an entry of its own
    CHECK(together(two, true, true, 0) == 2);
    CHECK(together(three, true, true, 0) == 3); // the neutral carries what does not balance
    CHECK(together(two, false, false, 3) == 3);
    CHECK(together(two, true, false, 3) == 6);  // 24 V and 0 V of each
    CHECK(together(two, false, false, 9) == 4); // no more than the row says
    const auto set = [](OptionalRule& row, int value) { row->value = Decimal{value, 0}; };
    set(rules.wires_together.feeds, 2);
    set(rules.wires_together.neutral, 1);
    set(rules.wires_together.beside_feed_iec, 3);
    set(rules.wires_together.beside_feed_north_america, 5);
    CHECK(together(two, false, true, 0) == 5);
    CHECK(together(two, true, true, 0) == 9);
    CHECK(together(three, true, true, 0) == 9);
    // 2.5 mm² in B1: 18.3 A; × 0.80 for two circuits 14.64 A; × 0.82 in 50 °C 12.00 A.
    CHECK(conductor_for(rules, false, 14, true, {40, 2})->size == "2.5 mm²");
    CHECK(conductor_for(rules, false, 14, true, {50, 2})->size == "4 mm²");
    CHECK_FALSE(conductor_for(rules, false, 2, true, {40, 10})); // beyond the table
    // 14 AWG: 15 A at its terminals of 60 °C, 25 A × 0.80 = 20 A by its insulation of 90 °C; among
    // seven wires 17.5 A; among ten 12.5 A.
    CHECK(conductor_for(rules, true, 15, true, {30, 6})->size == "14 AWG");
    CHECK(conductor_for(rules, true, 15, true, {30, 9})->size == "14 AWG");
    CHECK(conductor_for(rules, true, 15, true, {30, 10})->size == "12 AWG");
    rules.grouping_factors.clear();
    CHECK(conductor_for(rules, true, 15, true, {30, 99})->size == "14 AWG"); // no such rows
}

// IEC 60204-1 table 6, B1: 2.5 mm² carries 18.3 A; in 50 °C × 0.82, two units × 0.80.
TEST_CASE("the 24 V wires of a supply lie in warm air and beside those of others") {
    const BidRequest request = request_of(box_request(R"({"signal": "DI", "count": 4})"));
    const PriceBook book = demo_book();
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    Part part;
    part.rated_a = 12.5;
    Part decoupler;
    const auto size = [&](int units, const Part* parting) {
        SupplyChoice supply{&part, units};
        supply.decoupler = parting;
        return supply_conductor(facts, supply.unit_a(), supply.carrying())->size;
    };
    CHECK(size(1, nullptr) == "2.5 mm²");    // 15.0 A
    CHECK(size(2, nullptr) == "4 mm²");      // 12.0 A is too little; 24 × 0.656 = 15.7 A
    CHECK(size(2, &decoupler) == "2.5 mm²"); // one carries, one stands by
}

// NEC 312.6(A), electrical-facts 4: 4 AWG bends in 50.8 mm.
TEST_CASE("the terminals of a thick feed get the room in which it bends") {
    const auto built = [](const char* breaker) {
        return Built(R"({"volts": 480, "phases": 3, "hz": 60}}, "choices": {"keep": [{"part": ")" +
                         std::string(breaker) + R"("}])",
                     R"(, "job": {"practice": "north_america"})");
    };
    const Built thin = built("DB-V3-30"), thick = built("DB-V3-60");
    CHECK(thin.design().incoming.conductor->size == "10 AWG");
    CHECK(thin.design().need.bands[4].bent == 0);
    CHECK(thick.design().incoming.conductor->size == "4 AWG");
    const double height = *thick.design().incoming.terminal->height_mm;
    CHECK(thick.design().need.bands[4].bent == tenths(height) + 2 * tenths(50.8));
    const auto row = [](const PanelDesign& design) {
        return design.room.row_height[static_cast<std::size_t>(design.room.group[4])];
    };
    CHECK(row(thin.design()) == 1100);
    CHECK(row(thick.design()) == thick.design().need.bands[4].bent);
}

TEST_CASE("a larger breaker that costs less is taken") {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts)
        if (part.key == "DB-B1-10") part.list = Money::whole(1);
    const PriceBook book(parts, 1);
    const BidRequest request = request_of(box_request(R"({"signal": "DI", "count": 24})"));
    Work work;
    const PanelChoice choice = choose_panel(request, request.boxes[0], book, starter_rules(), work);
    REQUIRE(choice.design);
    CHECK(choice.design->incoming.breaker->key == "DB-B1-10");
    CHECK(choice.design->incoming.load.value < 6);
}
