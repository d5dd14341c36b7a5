// Groups of loads with a supply of their own: by hand from the demo price book and the starter
// rules; NEC 450.3(B) as electrical-facts 6 gives it (S56).
#include <algorithm>
#include <catch2/catch.hpp>

#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

const std::string points =
    R"({"signal": "DI", "count": 16, "amps": 0}, {"signal": "DO", "count": 10, "amps": 0.25})";

Estimate estimate_of(const std::string& more, const PriceBook& book = demo_book(),
                     const RuleBook& rules = starter_rules(), const std::string& list = points) {
    Work work;
    return price_job(request_of(box_request(list, more)), book, rules, work);
}

std::string fed(const std::string& equipment) {
    return R"(, "equipment": [{"text": "Fed", "where": "outside", "watts": 0, "price": "0.00", )" +
           equipment + "}]";
}

const std::string parted = R"(, "choices": {"separate_output_supply": true})";

bool raises(const Estimate& estimate, const char* code) {
    return std::any_of(estimate.findings.begin(), estimate.findings.end(),
                       [&](const Finding& finding) { return finding.code == code; });
}

std::int64_t on_bill(const Estimate& estimate, const std::string& part) {
    std::int64_t pieces = 0;
    for (const BillLine& line : estimate.bill)
        if (line.part == part) pieces += line.quantity;
    return pieces;
}

int count_of(const SupplyResult& supply, const std::string& part) {
    for (const PartCount& count : supply.parts)
        if (count.part == part) return count.quantity;
    return 0;
}

} // namespace

TEST_CASE("outputs parted from the logic have a supply, channels and a load of their own") {
    const Estimate one = estimate_of(""), two = estimate_of(parted);
    REQUIRE(one.boxes[0].supplies.size() == 1);
    REQUIRE(two.boxes[0].supplies.size() == 2);
    const SupplyResult& control = two.boxes[0].supplies[0];
    const SupplyResult& outputs = two.boxes[0].supplies[1];
    CHECK(one.boxes[0].supplies[0].group == "all");
    CHECK(control.group == "control");
    CHECK(outputs.group == "outputs");
    const double field = two.points[1].required * 0.25;
    const PriceBook book = demo_book();
    double channels_a = 0; // their own current stands behind their supply
    for (const PartCount& part : outputs.parts)
        channels_a += part.quantity * book.find(part.part)->own_a.value_or(0);
    CHECK(channels_a > 0);
    CHECK(outputs.load.value == Approx(field + channels_a));
    CHECK(outputs.rated.value >= outputs.required->value);
    CHECK(control.load.value < one.boxes[0].supplies[0].load.value - field + 0.1);
    CHECK(two.price->price > one.price->price);
}

TEST_CASE("coils that outputs switch go with the outputs") {
    const std::string relays =
        R"({"signal": "DO", "count": 10, "amps": 0.25, "via": "relay", "fed_from_box": false})";
    const Estimate two = estimate_of(parted, demo_book(), starter_rules(), relays);
    REQUIRE(two.boxes[0].supplies.size() == 2);
    CHECK(two.boxes[0].supplies[1].load.value > 0.05); // ten coils
    const Estimate none =
        estimate_of(parted, demo_book(), starter_rules(), R"({"signal": "DI", "count": 16})");
    CHECK(none.boxes[0].supplies.size() == 1); // nothing to part
    CHECK(none.boxes[0].supplies[0].group == "all");
}

TEST_CASE("redundant supplies and feeds hold for the outputs' supply too") {
    const Estimate two =
        estimate_of(R"(, "choices": {"separate_output_supply": true, "redundant_supply": true})");
    REQUIRE(two.boxes[0].supplies.size() == 2);
    CHECK(two.boxes[0].supplies[1].arrangement == "one_plus_one");
    const Estimate feeds = estimate_of(R"(, "site": {"supply": {"feeds": 2}})" + parted);
    REQUIRE(feeds.boxes[0].supplies.size() == 2);
    CHECK(feeds.boxes[0].supplies[1].quantity == 2);
}

TEST_CASE("equipment at 12 V DC has a supply of that voltage") {
    const Estimate built =
        estimate_of(fed(R"("quantity": 2, "volts": 12, "current": "dc", "amps": 1.5)"));
    REQUIRE(built.boxes[0].supplies.size() == 2);
    const SupplyResult& supply = built.boxes[0].supplies[1];
    CHECK(built.boxes[0].supplies[0].group == "all");
    CHECK(supply.group == "other_voltage");
    CHECK(supply.volts == 12);
    CHECK(supply.load.value == Approx(3));
    CHECK(supply.required->value == Approx(3 / 0.8)); // 3.75 A: of 2, 5 and 10 A the second
    CHECK(supply.part == "DP-12-05");
    CHECK(on_bill(built, "DP-12-05") == 1);
    // Two of 2 A would do as well; they cost 2 × 64 against 92 before discount.
    CHECK_FALSE(raises(built, "VOLTAGE_NOT_SUPPLIED"));
    // 36 W and their loss on the mains: the rest of the box draws what it did.
    const Estimate bare = estimate_of(fed(R"("amps_24v": 0)"));
    const double loss = 60 * (0.012 + 0.025 * 0.6 + 0.025 * 0.36);
    CHECK(built.boxes[0].incoming->load.value ==
          Approx(bare.boxes[0].incoming->load.value + (36 + loss) / (230 * 0.6)));
    CHECK(built.boxes[0].heat.inside.value ==
          Approx(bare.boxes[0].heat.inside.value + loss).margin(0.01));
}

TEST_CASE("a control transformer with its fuses, by hand") {
    const Estimate built =
        estimate_of(fed(R"("quantity": 3, "volts": 24, "current": "ac", "amps": 0.2)"));
    REQUIRE(built.boxes[0].supplies.size() == 2);
    const SupplyResult& supply = built.boxes[0].supplies[1];
    // 0.6 A × 24 V = 14.4 VA sealed, × √(1 + 5²) = 73.43 VA, ÷ 3 = 24.48 VA: the one of 63 VA.
    CHECK(supply.part == "DT-0063L");
    CHECK(supply.alternating);
    CHECK(*supply.selection_va == Approx(73.43).margin(0.01));
    CHECK(supply.required->value == Approx(24.475 / 24).margin(0.001));
    CHECK(supply.rated.value == Approx(63.0 / 24));
    // Primary 63 ÷ 230 = 0.2739 A × 250 % = 0.685 A: 0.5 A. Secondary 2.625 A × 167 % = 4.38: 4 A.
    CHECK(supply.primary->value == 0.5);
    CHECK(supply.secondary->value == 4);
    CHECK(count_of(supply, "DF-005") == 1);
    CHECK(count_of(supply, "DF-040") == 1);
    CHECK(on_bill(built, "DT-0063L") == 1);
    const Estimate bare = estimate_of(fed(R"("amps_24v": 0)"));
    CHECK(built.boxes[0].heat.inside.value ==
          Approx(bare.boxes[0].heat.inside.value + 12).margin(0.01)); // its own_w
    CHECK(built.boxes[0].incoming->load.value ==
          Approx(bare.boxes[0].incoming->load.value + (14.4 + 12) / 230));
    // A larger load of coils: 2 A, 48 VA, ÷ 0.588 = 81.6 VA.
    const Estimate more =
        estimate_of(fed(R"("quantity": 1, "volts": 24, "current": "ac", "amps": 2)"));
    CHECK(more.boxes[0].supplies[1].part == "DT-0160L");
}

TEST_CASE("a transformer whose fuses the price book lacks says so") {
    std::vector<Part> parts = demo_parts();
    std::erase_if(parts, [](const Part& part) { return part.function == "control fuse"; });
    const std::string valves = fed(R"("volts": 24, "current": "ac", "amps": 0.5)");
    const PriceBook bare(parts, 1);
    const Estimate without = estimate_of(valves, bare), with = estimate_of(valves);
    CHECK(raises(without, "TRANSFORMER_UNPROTECTED"));
    CHECK_FALSE(raises(with, "TRANSFORMER_UNPROTECTED"));
    CHECK(without.boxes[0].supplies[1].parts.empty());
}

TEST_CASE("a voltage that nothing gives is said, one of the mains counts there") {
    const Estimate plain = estimate_of(fed(R"("amps_24v": 0)"));
    const Estimate odd = estimate_of(fed(R"("volts": 110, "current": "ac", "amps": 0.5)"));
    CHECK(odd.buildable);
    CHECK(raises(odd, "VOLTAGE_NOT_SUPPLIED"));
    CHECK(odd.boxes[0].supplies.size() == 1);
    CHECK(odd.price->price == plain.price->price); // as the finding says
    const Estimate mains =
        estimate_of(fed(R"("quantity": 2, "volts": 230, "current": "ac", "amps": 0.5)"));
    CHECK(raises(mains, "MAINS_EQUIPMENT"));
    CHECK_FALSE(raises(mains, "VOLTAGE_NOT_SUPPLIED"));
    CHECK(mains.boxes[0].incoming->load.value == Approx(plain.boxes[0].incoming->load.value + 1));
    // 230 V is a voltage of 400 V mains with a neutral; without one a transformer gives it.
    const std::string lines = R"(, "site": {"supply": {"volts": 400, "phases": 3, "neutral": )";
    const std::string lamp = fed(R"("volts": 230, "current": "ac", "amps": 0.5)");
    CHECK(raises(estimate_of(lamp + lines + "true}}"), "MAINS_EQUIPMENT"));
    const Estimate between = estimate_of(lamp + lines + "false}}");
    CHECK_FALSE(raises(between, "MAINS_EQUIPMENT"));
    REQUIRE(between.boxes[0].supplies.size() == 2);
    CHECK(between.boxes[0].supplies[1].part.starts_with("DT-0"));
    int primary = 0; // both lines are fused, one side of the secondary is earthed
    for (const PartCount& part : between.boxes[0].supplies[1].parts) primary += part.quantity;
    CHECK(primary == 3);
}

// Nominal voltages between line and neutral, and between lines: IEC 60038, table 1 (from memory).
TEST_CASE("what stands between line and neutral of a nominal voltage lies on the mains") {
    const auto on_mains = [](const char* load, const char* lines) {
        return raises(
            estimate_of(fed(std::string(R"("current": "ac", "amps": 0.5, "volts": )") + load) +
                        R"(, "site": {"supply": {"phases": 3, "neutral": true, "volts": )" + lines +
                        "}}"),
            "MAINS_EQUIPMENT");
    };
    for (const auto& [load, lines] : {std::pair("230", "400"), std::pair("240", "415"),
                                      std::pair("277", "480"), std::pair("120", "208")}) {
        CAPTURE(load, lines);
        CHECK(on_mains(load, lines));
    }
    CHECK_FALSE(on_mains("240", "400"));
    CHECK_FALSE(on_mains("220", "400"));
}

TEST_CASE("supplies close together give what the part or the row leaves") {
    RuleBook tight = starter_rules();
    tight.room.supply.side_mm->value = {0, 0};
    const Estimate free = estimate_of(""), close = estimate_of("", demo_book(), tight);
    const SupplyResult& one = free.boxes[0].supplies[0];
    const SupplyResult& other = close.boxes[0].supplies[0];
    CHECK(one.derating.mounting == 1);
    CHECK(other.derating.mounting == 0.7);
    CHECK(other.required->value == Approx(one.required->value / 0.7));
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts)
        if (part.kind == "supply") part.tight_factor = 1;
    const PriceBook stated(parts, 1);
    CHECK(estimate_of("", stated, tight).boxes[0].supplies[0].derating.mounting == 1);
}

TEST_CASE("the controller is alone on its channel and each function on one of its own") {
    const Estimate estimate = estimate_of("");
    const auto& groups = estimate.boxes[0].distribution;
    REQUIRE(groups.size() >= 3);
    REQUIRE(groups[0].loads.size() == 1);
    CHECK(groups[0].loads[0].text == estimate.boxes[0].modules[0].part);
    for (const DistributedGroup& group : groups)
        for (const DistributedLoad& load : group.loads)
            if (load.text == "DO to the field" && !load.goes_on) CHECK(group.loads.size() == 1);
    const Estimate two = estimate_of(parted);
    for (const DistributedGroup& group : two.boxes[0].distribution)
        for (const DistributedLoad& load : group.loads)
            CHECK((load.text == "DO to the field") == (group.supply == 1 && !group.id.empty()));
}
