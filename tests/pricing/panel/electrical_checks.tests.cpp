#include <algorithm>
#include <iostream>
#include <map>
#include <optional>

#include "pricing/panel/conductors.h"
#include "pricing/panel/control_transformer.h"
#include "pricing/panel/cooling.h"
#include "pricing/panel/mains.h"
#include "pricing/panel/panel_design.h"
#include "pricing/panel/short_circuit.h"
#include "pricing/panel/site_limits.h"
#include "pricing/panel/small_parts.h"
#include "tests/pricing/panel/electrical_unchecked.h"
#include "tests/pricing/panel/electrical_wiring.h"

using namespace backplate;
using namespace backplate::electrical;

namespace {

/// What an incoming device costs its own rating, so that the smallest is the cheapest.
std::optional<double> next_rating(bool american, double load) {
    std::vector<Part> parts = demo_parts();
    std::erase_if(parts, [](const Part& part) {
        return part.kind == "incoming" || part.kind == "main_switch" || part.kind == "wire" ||
               part.kind == "terminal";
    });
    const auto add = [&](const char* kind, double amps, int price) {
        Part part;
        part.kind = kind;
        part.key = kind + number_text(amps);
        part.rated_a = amps;
        part.width_mm = 10;
        part.list = Money::whole(price);
        parts.push_back(part);
    };
    const RuleBook& rules = starter_rules();
    for (const Rule& row :
         american ? rules.breaker_ratings_north_america : rules.breaker_ratings_iec)
        add("incoming", row.number(), static_cast<int>(row.number()));
    add("main_switch", 10000, 1);
    add("wire", 1, 1);
    add("terminal", 1, 1);
    const PriceBook book(parts, 1);
    const BidRequest request =
        request_of(box_request(R"({"signal": "DI", "count": 4})", "",
                               american ? R"(, "job": {"practice": "north_america"})" : ""));
    RuleBook wide = rules; // ampacities without end: only the ratings are judged
    for (Conductor& row : wide.conductors) {
        row.ampacity.value = {100000, 0};
        row.largest_device.reset();
    }
    BoxFacts facts = box_facts(request, request.boxes[0], book, wide);
    const auto choice = choose_incoming(
        incoming_choices(book, facts, fixed_parts(book, facts, wide)), facts, {load});
    return choice ? choice->breaker->rated_a : std::nullopt;
}

int judge_rating(bool american, double load, const Node& expected) {
    CAPTURE(american, load);
    const auto found = next_rating(american, load);
    if (expected.is(Node::Kind::null))
        CHECK_FALSE(found);
    else
        CHECK(found == number(expected));
    return 1;
}

/// Loads on their continuous factor, the need itself, or the list of the practice without one.
int ratings_of(const Node& check, bool american, const char* input, double divisor) {
    const Node& loads = *check.find("inputs")->find(input);
    const Node& expected = *check.find("expect");
    if (loads.items.empty()) return judge_rating(american, number(loads) / divisor, expected);
    int judged = 0;
    for (std::size_t i = 0; i < loads.items.size(); ++i) {
        // IEC 60898-1 ends at 125 A; the list here goes on with the frames of IEC 60947-2.
        if (number(loads.items[i]) > 125 && !american) {
            CHECK(next_rating(false, number(loads.items[i])) == 160.0);
            continue;
        }
        judged += judge_rating(american, number(loads.items[i]) / divisor, expected.items[i]);
    }
    return judged;
}

int marks_of(const Node& check) {
    const Node& pairs = *check.find("inputs")->find("pairs");
    int judged = 0;
    for (std::size_t i = 0; i < pairs.items.size(); ++i) {
        const Node& pair = pairs.items[i];
        CAPTURE(pair.items[0].text, pair.items[1].text);
        CHECK(mark_meets(pair.items[0].text, pair.items[1].text, starter_rules()) ==
              check.find("expect")->items[i].flag);
        ++judged;
    }
    return judged;
}

int conductors_b2(const Node& check) {
    const Node& expected = *check.find("expect");
    const char* const sizes[] = {"1.5 mm²", "2.5 mm²", "4 mm²", "6 mm²", "10 mm²"};
    int judged = 0;
    for (const char* size : sizes)
        judged += judge_cell("iec", size, "B2", expected.items[static_cast<std::size_t>(judged)]);
    return judged;
}

int smallest_b2(const Node& check) {
    RuleBook rules = starter_rules();
    rules.conductor_columns.iec = "B2";
    const Conductor* found =
        conductor_for(rules, false, number(*check.find("inputs")->find("In_A")), true);
    REQUIRE(found);
    CHECK(found->order.number() == number(*check.find("expect")));
    return 1;
}

int strip(const Node& check) {
    const auto& room = starter_rules().room;
    CHECK(40 * 5.2 + 4 * 6.2 + room.strip_ends_mm->number() ==
          Approx(number(*check.find("expect"))).margin(number(*check.find("tolerance"))));
    return 1;
}

int loops(const Node& check) {
    const double each = starter_rules().find_signal("AI_MA")->amps->number();
    CHECK(number(*check.find("inputs")->find("loops")) * each ==
          Approx(number(*check.find("expect"))));
    return 1;
}

/// Input currents of PS3 and PS4: watts, efficiency, volts, power factor stand in the words.
int input_current(const Node& check, double watts, double efficiency, double volts, int phases,
                  double factor) {
    Site site;
    site.volts = volts;
    site.phases = phases;
    site.neutral = false;
    Part part;
    part.kind = "supply";
    part.phases = phases;
    CHECK(watts / efficiency * amps_per_watt(part, site) / factor ==
          Approx(number(*check.find("expect"))).margin(number(*check.find("tolerance"))));
    return 1;
}

RuleBook with_insulation(const char* celsius) {
    RuleBook rules = starter_rules();
    rules.conductor_columns.insulation_north_america->value = *parse_decimal(celsius);
    return rules;
}

int factor_cells(const Node& check) {
    const RuleBook rules = with_insulation("75");
    const Node& airs = *check.find("inputs")->find("ambient_C");
    int judged = 0;
    for (const Node& air : airs.items) {
        const Node& expected = check.find("expect")->items[static_cast<std::size_t>(judged++)];
        CAPTURE(number(air));
        CHECK(ambient_factor(rules, true, number(air))->factor.number() ==
              (expected.is(Node::Kind::null) ? 0 : number(expected)));
    }
    return judged;
}

/// The row is the formula rounded to two decimals.
int factor_formula(const Node& check) {
    CHECK(ambient_factor(with_insulation("75"), true, 50)->factor.number() ==
          Approx(number(*check.find("expect"))).margin(0.005));
    return 1;
}

int bundling_cells(const Node& check) {
    int judged = 0;
    for (const double wires : numbers(*check.find("inputs")->find("n"))) {
        const Node& expected = check.find("expect")->items[static_cast<std::size_t>(judged++)];
        CAPTURE(wires);
        CHECK(grouping("north_america", "10 AWG", "90 °C", static_cast<int>(wires)) * 100 ==
              Approx(number(expected)));
    }
    return judged;
}

/// 10 AWG in 50 °C among 8 loaded wires: by its insulation of 90 °C, and behind terminals of 75 °C.
double crowded(const char* column, const WirePlace& place) {
    const Conductor* row = cell("north_america", "10 AWG", column);
    REQUIRE(row);
    return ampacity_in(with_insulation("90"), true, *row, place);
}

int bundled_ampacity(const Node& check) {
    CHECK(crowded("90 °C", {50, 8}) ==
          Approx(number(*check.find("expect"))).margin(number(*check.find("tolerance"))));
    return 1;
}

int governing_ampacity(const Node& check) {
    CHECK(crowded("75 °C", {50, 8}) == Approx(number(*check.find("expect"))).margin(0.005));
    CHECK(crowded("75 °C", {30, 3}) == number(*check.find("inputs")->find("terminal75")));
    return 2;
}

int grouped_circuits(const Node& check) {
    const Conductor* row = cell("iec", "2.5 mm²", "B2");
    REQUIRE(row);
    CHECK(ampacity_in(starter_rules(), false, *row, {50, 4}) ==
          Approx(number(*check.find("expect"))).margin(number(*check.find("tolerance"))));
    return 1;
}

/// Threads in millimetres against the functions of the rows, "gland M16".
int gland_sizes(const Node& check) {
    std::vector<SmallPart> glands;
    for (const SmallPartRow& row : starter_rules().small_parts)
        if (row.function.starts_with("gland ")) glands.push_back({&row, nullptr});
    int judged = 0;
    for (const double diameter : numbers(*check.find("inputs")->find("mm"))) {
        const Node& expected = check.find("expect")->items[static_cast<std::size_t>(judged++)];
        const SmallPart* gland = gland_for(glands, diameter);
        CAPTURE(diameter);
        CHECK((gland ? gland->row->function : "none") ==
              (expected.is(Node::Kind::null) ? "none" : "gland M" + number_text(number(expected))));
    }
    return judged;
}

int bending_of_sizes(const Node& check) {
    int judged = 0;
    for (const Node& size : check.find("inputs")->find("awg")->items) {
        const Node& expected = check.find("expect")->items[static_cast<std::size_t>(judged++)];
        const Conductor* conductor = cell("north_america", size.text + " AWG", "60 °C");
        CAPTURE(size.text);
        REQUIRE(conductor);
        const BendingSpace* row = bending_row(starter_rules(), true, *conductor);
        REQUIRE(row);
        CHECK(row->space_mm.number() == (expected.is(Node::Kind::null) ? 0 : number(expected)));
    }
    return judged;
}

/// Which types may stand outdoors without a finding.
int outdoor_types(const Node& check) {
    const Node& types = *check.find("inputs")->find("types");
    int judged = 0;
    for (const Node& type : types.items) {
        Site site;
        site.place = "outdoor_shade";
        site.protection = "Type " + type.text;
        CAPTURE(type.text);
        CHECK(marks_of_place(site, starter_rules()).empty() ==
              check.find("expect")->items[static_cast<std::size_t>(judged++)].flag);
    }
    return judged;
}

/// A bill of parts with these ratings; the last is the switch.
ShortCircuitResult offered(const std::vector<double>& ratings, std::optional<double> asked) {
    SearchFacts search;
    const BidRequest request = request_of(box_request(R"({"signal": "DI", "count": 4})"));
    Box box = request.boxes.front();
    box.site.fault_current_ka = asked;
    search.rules = &starter_rules();
    search.facts.box = &box;
    search.facts.request = &request;
    std::vector<Part> parts(ratings.size());
    PanelDesign design;
    for (std::size_t i = 0; i < ratings.size(); ++i) {
        parts[i].kind = i + 1 == ratings.size() ? "main_switch" : "device";
        parts[i].key = "P" + std::to_string(i);
        parts[i].rated_ka = ratings[i];
        design.bill.push_back({&parts[i], nullptr, "device", 1});
    }
    return short_circuit_of(design, search);
}

int weakest_part(const Node& check) {
    const auto found = offered(numbers(*check.find("inputs")->find("parts_kA")), std::nullopt);
    CHECK(found.stated_ka == number(*check.find("expect")));
    CHECK(found.weakest_part == "P2");
    CHECK(found.basis == "weakest_part");
    return 1;
}

int demand_met(const Node& check) {
    const Node& inputs = *check.find("inputs");
    const double panel = number(*inputs.find("panel_kA"));
    int judged = 0;
    for (const Node& available : inputs.find("available_kA")->items) {
        const auto found = offered({panel, 65}, number(available));
        CHECK((found.basis == "stated_current") ==
              check.find("expect")->items[static_cast<std::size_t>(judged++)].flag);
    }
    return judged;
}

int selection(const Node& check) {
    const double sealed = number(*check.find("inputs")->find("sealed"));
    const double inrush = number(*check.find("inputs")->find("inrush"));
    const Node& expected = *check.find("expect");
    CHECK(selection_va(sealed, inrush) == Approx(number(*expected.find("rss"))).margin(0.01));
    CHECK(selection_va(sealed, inrush) <= number(*expected.find("sum"))); // the safe side
    return 2;
}

int transformer_devices(const Node& check) {
    const Node& inputs = *check.find("inputs");
    const Node& expected = *check.find("expect");
    const auto value = [&](const char* key) { return number(*expected.find(key)); };
    const double va = number(*inputs.find("VA"));
    const double primary = va / number(*inputs.find("Vp")),
                 secondary = va / number(*inputs.find("Vs"));
    const TransformerRules& rules = *starter_rules().transformers;
    std::vector<double> fuses;
    for (const Rule& row : starter_rules().fuse_ratings_north_america)
        fuses.push_back(row.number());
    const DeviceLimit alone = primary_limit(primary, true, rules);
    const DeviceLimit beside = primary_limit(primary, false, rules);
    const DeviceLimit behind = secondary_limit(secondary, rules);
    CHECK(primary == Approx(value("Ip")).margin(0.001));
    CHECK(secondary == Approx(value("Is")).margin(0.001));
    CHECK(alone.amps == Approx(value("primary_only_max_A")).margin(0.001));
    CHECK(beside.amps == Approx(value("both_primary_max_A")).margin(0.001));
    CHECK(behind.amps == Approx(value("secondary_max_A")).margin(0.001));
    CHECK(rating_within(alone, primary, fuses) == value("primary_only_fuse_A"));
    CHECK(rating_within(behind, secondary, fuses) == value("secondary_fuse_A"));
    return 7;
}

std::map<std::string, Judge> compared_checks() {
    const auto american = [](const char* input, double divisor) {
        return [=](const Node& check) { return ratings_of(check, true, input, divisor); };
    };
    return {
        {"OC1", american("continuous_A", 1)},
        {"OC2", american("continuous_A", 1)},
        {"OC3", american("continuous_A", 1)},
        {"OC5", american("min_A", 1.25)},
        {"OC6", american("min_A", 1.25)},
        {"OC7", [](const Node& check) { return ratings_of(check, false, "Ib_A", 1); }},
        {"CO1", factor_cells},
        {"CO2", factor_formula},
        {"CO3", bundling_cells},
        {"CO4", bundled_ampacity},
        {"CO5", governing_ampacity},
        {"CO8", grouped_circuits},
        {"ME4", gland_sizes},
        {"ME6", bending_of_sizes},
        {"CO7", conductors_b2},
        {"NE1", outdoor_types},
        {"SC1", weakest_part},
        {"SC2", demand_met},
        {"CO9", smallest_b2},
        {"LP5", loops},
        {"ME1", strip},
        {"IP1", marks_of},
        {"TR1", selection},
        {"TR2", transformer_devices},
        {"PS3", [](const Node& check) { return input_current(check, 240, 0.92, 230, 1, 0.95); }},
        {"PS4", [](const Node& check) { return input_current(check, 480, 0.94, 400, 3, 0.90); }},
    };
}

} // namespace

TEST_CASE("every check value of the electrical facts is compared or listed with its reason") {
    const auto compared = compared_checks();
    int values = 0;
    std::size_t met = 0, listed = 0;
    for (const Node& check : tables().find("unit_tests")->items) {
        const std::string id = check.find("id")->text;
        CAPTURE(id);
        const auto judge = compared.find(id);
        CHECK((judge != compared.end()) != uncomputed_checks.contains(id));
        if (judge == compared.end()) {
            ++listed;
            continue;
        }
        values += judge->second(check);
        ++met;
    }
    std::cout << "electrical check values: " << met << " compared in " << values << " figures, "
              << listed << " listed with a reason\n";
    CHECK(met == compared.size());
    CHECK(listed == uncomputed_checks.size());
}
