// Short-circuit rating, inrush, ducts and reserves of whole boxes. Sources: electrical-facts 4, 6;
// climate-and-supply 4, 5; ratings and prices of the parts are invented.
#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>

#include "pricing/panel/conductors.h"
#include "pricing/panel/room_rule.h"
#include "pricing/panel/supply.h"
#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

using Change = std::function<void(Part&)>;

Estimate estimate_of(
    const std::string& json, const Change& change = [](Part&) {},
    const RuleBook& rules = starter_rules()) {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts) change(part);
    const PriceBook book(parts, 1);
    Work work;
    return price_job(request_of(json), book, rules, work);
}

std::string box(const std::string& more, const std::string& job = {}) {
    return box_request(R"({"signal": "DI", "count": 8}, {"signal": "DO", "count": 4})", more, job);
}

const Finding* find(const Estimate& estimate, const std::string& code) {
    for (const Finding& finding : estimate.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

const std::string american = R"(, "job": {"practice": "north_america"})";

std::string on_120_v(const std::string& fault) {
    return box(R"(, "site": {)" + fault + R"("supply": {"volts": 120, "hz": 60}})", american);
}

} // namespace

TEST_CASE("marks of the place, surges and stacked reserves are said") {
    struct Pair {
        const char* code;
        std::string with, without;
    };
    const std::string plain = box("");
    const std::vector<Pair> pairs{
        {"PROTECTION_OF_PLACE",
         box(R"(, "site": {"place": "outdoor_shade", "protection": "IP43"})"),
         box(R"(, "site": {"place": "outdoor_shade", "protection": "IP54"})")},
        {"PROTECTION_OF_PLACE", box(R"(, "site": {"corrosion": "washdown", "protection": "IP65"})"),
         box(R"(, "site": {"corrosion": "washdown", "protection": "IP66"})")},
        {"FUTURE_HEAT", box(R"(, "choices": {"future_load_percent": 10})"), plain},
        {"FEED_LOST",
         box_request(R"({"signal": "DO", "count": 16, "amps": 0.25})",
                     R"(, "site": {"supply": {"feeds": 2}})"),
         box_request(R"({"signal": "DO", "count": 16, "amps": 0.25})",
                     R"(, "site": {"supply": {"feeds": 2}}, )"
                     R"("choices": {"redundant_supply": true})")},
        {"SURGE", box(R"(, "site": {"place": "outdoor_shade"}, "choices": {"exclude": ["DA-1"]})"),
         box(R"(, "choices": {"exclude": ["DA-1"]})")},
        {"SURGE_ADDED", box(R"(, "site": {"place": "outdoor_shade"})"), plain},
        {"SURGE_ADDED", box(R"(, "site": {"place": "outdoor_shade"})"),
         box(R"(, "site": {"place": "outdoor_shade"}, "equipment": [{"part": "DA-1"}])")},
        {"RESERVES_STACKED", box(R"(, "choices": {"future_load_percent": 300})"),
         box_request(R"({"signal": "DO", "count": 40, "amps": 0.25})")}};
    for (const Pair& pair : pairs) {
        CAPTURE(pair.code, pair.with, pair.without);
        CHECK(find(estimate_of(pair.with), pair.code));
        CHECK_FALSE(find(estimate_of(pair.without), pair.code));
    }
}

TEST_CASE("the rating offered is the lowest of the power circuit") {
    const Estimate plain = estimate_of(box(""));
    REQUIRE(plain.buildable);
    const std::string breaker = plain.boxes[0].incoming->part;
    CHECK(plain.boxes[0].short_circuit->stated_ka == 6.0); // of the breaker, in the price book
    CHECK(plain.boxes[0].short_circuit->weakest_part == breaker);
    CHECK(plain.boxes[0].short_circuit->basis == "weakest_part");
    const Estimate kept = estimate_of(box(R"(, "site": {"fault_current_ka": 5})"));
    CHECK(kept.boxes[0].short_circuit->basis == "stated_current");
    CHECK_FALSE(find(kept, "SCCR_NOT_MET"));
}

TEST_CASE("without a rating nothing stands in for it in iec") {
    const auto unmarked = [](Part& part) {
        if (part.kind == "incoming") part.rated_ka.reset();
    };
    const Estimate open = estimate_of(box(""), unmarked);
    REQUIRE(open.buildable);
    CHECK_FALSE(open.boxes[0].short_circuit->stated_ka);
    CHECK(open.boxes[0].short_circuit->basis == "not_determined");
    CHECK(open.boxes[0].short_circuit->weakest_part == open.boxes[0].incoming->part);
    CHECK(find(open, "SCCR_NOT_DETERMINED"));
    CHECK_FALSE(find(open, "SCCR_OFFERED"));
    CHECK_FALSE(find(open, "SCCR_NOT_MET"));
    const Estimate asked = estimate_of(box(R"(, "site": {"fault_current_ka": 5})"), unmarked);
    REQUIRE(find(asked, "SCCR_NOT_MET"));
    CHECK(find(asked, "SCCR_NOT_MET")->severity == Severity::stop);
}

TEST_CASE("in north_america the table stands in for a part without a rating") {
    const auto unmarked = [](Part& part) {
        if (part.kind == "incoming" || part.kind == "main_switch") part.rated_ka.reset();
    };
    const Estimate plain = estimate_of(on_120_v(""), unmarked);
    REQUIRE(plain.buildable);
    CHECK(plain.boxes[0].short_circuit->stated_ka == 5.0); // table SB4.1, 5 kA in general
    CHECK(plain.boxes[0].short_circuit->basis == "default_value");
    // Terminals of the incoming conductor hold the others back: 10 kA in the same table.
    const auto strong = [](Part& part) {
        if (part.kind == "incoming" || part.kind == "main_switch") part.rated_ka = 65;
    };
    const Estimate better = estimate_of(on_120_v(""), strong);
    CHECK(better.boxes[0].short_circuit->stated_ka == 10.0);
    CHECK(find(estimate_of(on_120_v(R"("fault_current_ka": 22, )"), strong), "SCCR_NOT_MET"));
}

TEST_CASE("a documented combination raises a part behind another one of the bill") {
    const auto combined = [](double ka) {
        return [ka](Part& part) {
            if (part.kind == "main_switch") part.rated_ka = 20;
            if (part.kind == "incoming") part.combinations = {{"DS-2-16", ka}};
        };
    };
    const Estimate raised = estimate_of(box(""), combined(15));
    REQUIRE(raised.buildable);
    const auto& bill = raised.bill;
    REQUIRE(std::any_of(bill.begin(), bill.end(),
                        [](const BillLine& line) { return line.part == "DS-2-16"; }));
    CHECK(raised.boxes[0].short_circuit->stated_ka == 15.0);
    CHECK(raised.boxes[0].short_circuit->basis == "combination");
    CHECK(estimate_of(box(""), combined(4)).boxes[0].short_circuit->stated_ka == 6.0);
}

TEST_CASE("a supplementary protector is no main device") {
    const auto all = [](Part& part) {
        if (part.kind == "incoming") part.approvals = "UL 1077";
    };
    CHECK_FALSE(estimate_of(box(""), all).buildable);
}

TEST_CASE("a main switch that names no handle is said") {
    const auto handled = [](Part& part) {
        if (part.kind == "main_switch") part.function = "switch with door handle";
    };
    CHECK(find(estimate_of(box("")), "SWITCH_HANDLE"));
    CHECK_FALSE(find(estimate_of(box(""), handled), "SWITCH_HANDLE"));
}

TEST_CASE("a breaker lets the peak of its supplies pass") {
    const auto peaks = [](double amps) {
        return [amps](Part& part) {
            if (part.kind == "supply") part.inrush_a = amps;
        };
    };
    // 5 × 6 A = 30 A; a breaker of 10 A bears 50 A (climate-and-supply 5.3, from memory).
    CHECK(estimate_of(box(""), peaks(30)).boxes[0].incoming->device.value == 6);
    CHECK(estimate_of(box(""), peaks(30.5)).boxes[0].incoming->device.value > 6);
    CHECK(estimate_of(box(""), peaks(62)).boxes[0].incoming->device.value >= 62 / 5.0);
    const auto none = [](Part& part) { part.inrush_a.reset(); };
    CHECK(find(estimate_of(box(""), none), "INRUSH_UNKNOWN"));
    CHECK_FALSE(find(estimate_of(box("")), "INRUSH_UNKNOWN"));
}

TEST_CASE("a supply of another voltage is none of the control supply") {
    const auto cheap = [](Part& part) {
        if (part.key != "DP-050") return;
        part.list = Money::whole(1);
        part.output_v = 12;
    };
    const Estimate other = estimate_of(box(""), cheap);
    REQUIRE(other.buildable);
    CHECK(other.boxes[0].supplies[0].part != "DP-050");
}

TEST_CASE("low mains take from a supply of a wide range") {
    const auto at = [](double volts, double low_v) {
        Site site;
        site.volts = volts;
        site.phases = 1;
        Part part;
        part.kind = "supply";
        part.input_min_v = low_v;
        part.input_max_v = 264;
        return input_factor(part, site, starter_rules().supply);
    };
    // climate-and-supply 5.2 (S44): 80 % at 90 V, 1 %/V, all of it from 110 V on.
    CHECK(at(90, 85) == Approx(0.8));
    CHECK(at(100, 85) == Approx(0.9));
    CHECK(at(110, 85) == 1);
    CHECK(at(230, 85) == 1);
    const Estimate low = estimate_of(box(R"(, "site": {"supply": {"volts": 100, "hz": 50}})"));
    REQUIRE(low.buildable);
    const SupplyResult& supply = low.boxes[0].supplies[0];
    CHECK(supply.derating.input == Approx(0.9));
    CHECK(supply.required->value ==
          Approx(supply.load.value / (*supply.derating.temperature * 0.9 * 0.8)));
}

TEST_CASE("class 2 takes one supply marked so, or says that there is none") {
    const std::string asked = R"(, "site": {"approvals": ["class_2"]})";
    CHECK_FALSE(estimate_of(box(asked)).buildable);
    const auto marked = [](Part& part) {
        if (part.key == "DP-040") part.approvals = "class_2";
    };
    const Estimate built = estimate_of(box(asked), marked);
    REQUIRE(built.buildable);
    CHECK(built.boxes[0].supplies[0].part == "DP-040");
    CHECK(built.boxes[0].supplies[0].quantity == 1);
    const std::string many = R"({"signal": "DO", "count": 60, "amps": 0.5})";
    CHECK_FALSE(estimate_of(box_request(many, asked), marked).buildable);
    CHECK_FALSE(
        estimate_of(box(R"(, "site": {"approvals": ["class_2"], "supply": {"feeds": 2}})"), marked)
            .buildable);
}

TEST_CASE("units that share a load are said") {
    const std::string many = R"({"signal": "DO", "count": 60, "amps": 0.5})";
    const auto small = [](Part& part) {
        if (part.kind == "supply" && part.rated_a.value_or(0) > 15) part.state = "discontinued";
    };
    const Estimate shared = estimate_of(box_request(many), small);
    REQUIRE(shared.buildable);
    REQUIRE(shared.boxes[0].supplies[0].arrangement == "parallel");
    CHECK(find(shared, "PARALLEL_SUPPLIES"));
    CHECK_FALSE(find(estimate_of(box("")), "PARALLEL_SUPPLIES"));
}

TEST_CASE("wires that overfill the widest duct are said") {
    const RoomRules& rules = starter_rules().room;
    RoomNeed need;
    // 120 × 80 mm at half fill with wires of 2.6 mm hold 904; half of all wires meet in one duct.
    need.wires_and_cores = 2 * 904;
    CHECK_FALSE(duct_overfill(need, rules));
    ++need.wires_and_cores;
    REQUIRE(duct_overfill(need, rules));
    CHECK(duct_overfill(need, rules)->wires == 905);
    CHECK(duct_overfill(need, rules)->holds == 904);
    RuleBook narrow = starter_rules();
    narrow.room.duct_widths.resize(1);
    narrow.room.duct_widths[0].high = Decimal{20, 0};
    CHECK(find(estimate_of(
                   box(""), [](Part&) {}, narrow),
               "DUCT_OVERFULL"));
    CHECK_FALSE(find(estimate_of(box("")), "DUCT_OVERFULL"));
}

TEST_CASE("reserves of the supply multiply to its rating over the load of today") {
    const Estimate stacked = estimate_of(box(R"(, "choices": {"future_load_percent": 300})"));
    const Finding* finding = find(stacked, "RESERVES_STACKED");
    REQUIRE(finding);
    std::string text;
    for (const auto& [name, value] : finding->params)
        if (name == "reserves") text = value;
    CHECK_THAT(text, Catch::StartsWith("future load × 4"));
    CHECK_THAT(text, Catch::Contains("share of the rating used × 1.25"));
}

TEST_CASE("warm air asks for a thicker incoming conductor") {
    const RuleBook& rules = starter_rules();
    // IEC 60204-1 table 6, B1: 13.5 A at 40 °C; × 0.82 at 50 °C is 11.07 A.
    CHECK(conductor_for(rules, false, 13, true, {40})->size == "1.5 mm²");
    CHECK(conductor_for(rules, false, 10, true, {50})->size == "1.5 mm²");
    CHECK(conductor_for(rules, false, 13, true, {50})->size == "2.5 mm²");
    // NEC: 14 AWG, 60 °C terminals 15 A; insulation of 90 °C 25 A × 0.82 at 50 °C is 20.5 A.
    CHECK(conductor_for(rules, true, 15, true, {50})->size == "14 AWG");
    // 25 A × 0.58 at 70 °C is 14.5 A.
    CHECK(conductor_for(rules, true, 15, true, {70})->size == "12 AWG");
    CHECK_FALSE(conductor_for(rules, false, 6, true, {61})); // hotter than the table
}

// A plate of 400 mm leaves 310 mm of rail, 19 places of the slices ask for more.
TEST_CASE("a station on several rows takes the extension of its bus, or none is said") {
    const auto narrow = [](const std::string& more) {
        return estimate_of(box_request(
            R"({"signal": "DI", "count": 200, "wiring": "internal"},
               {"signal": "AI_MA", "count": 20, "wiring": "internal"})",
            R"(, "choices": {"platforms": ["slice"], )" + more +
                R"("enclosure": {"existing_plate_mm": {"width": 400, "height": 1800}}})"));
    };
    const auto extensions = [](const Estimate& estimate) {
        std::int64_t sum = 0;
        for (const BillLine& line : estimate.bill)
            if (line.part == "QS-EXT") sum += line.quantity;
        return sum;
    };
    const Estimate with = narrow(""), without = narrow(R"("exclude": ["QS-EXT"], )");
    REQUIRE(with.buildable);
    REQUIRE(without.buildable);
    CHECK(extensions(with) > 0);
    CHECK(extensions(with) == static_cast<std::int64_t>(with.boxes[0].layout.breaks.size()));
    CHECK_FALSE(find(with, "BUS_EXTENSION"));
    CHECK(extensions(without) == 0);
    CHECK(find(without, "BUS_EXTENSION"));
    CHECK(extensions(estimate_of(box(R"(, "choices": {"platforms": ["slice"]})"))) == 0);
}
