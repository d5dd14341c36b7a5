// Terminals and wires per channel: electrical-facts 8 (common practice, no source). Interfaces: the
// wiring of a channel changes by coil, contact and feed wires (common practice, no source).
#include "pricing/panel/wiring.h"

#include <catch2/catch.hpp>

#include "pricing/panel/choose_panel.h"
#include "pricing/panel/line_wiring.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// The demo book with interfaces and terminals by function added.
PriceBook book_with_functions() {
    std::vector<Part> parts = demo_parts();
    std::erase_if(parts, [](const Part& part) {
        return (part.kind == "interface" && part.key != "KT-R06") ||
               (part.kind == "terminal" && part.key != "KT-025");
    });
    const auto add = [&](const char* key, const char* kind, const char* function, double width,
                         double own_a, std::optional<double> own_w) {
        Part part;
        part.key = key;
        part.kind = kind;
        part.function = function;
        part.list = Money::parse("20.00");
        part.width_mm = width;
        part.height_mm = 90;
        part.depth_mm = 80;
        if (std::string(kind) == "interface") part.own_a = own_a;
        part.own_w = own_w;
        part.max_c = 60;
        parts.push_back(part);
    };
    add("T-ISO", "interface", "isolator, analogue", 6.2, 0.045, 1.0);
    add("T-MAINS", "interface", "relay, slim, mains coil", 6.2, 0, 0.6);
    add("T-SAFE", "interface", "relay, force-guided", 22.5, 0.042, std::nullopt);
    add("T-FEED", "interface", "transmitter feed, intrinsically safe", 12.5, 0.06, 1.2);
    add("T-RTD", "interface", "transmitter, on rail", 12.5, 0.025, 0.6);
    add("T-FUSE", "terminal", "fuse", 8.2, 0, std::nullopt);
    add("T-OPEN", "terminal", "disconnect", 5.2, 0, std::nullopt);
    return PriceBook(parts, 1);
}

struct PairCase {
    const char *signal, *wiring, *via;
    bool fed;
    int terminals, wires;
};

/// Direct wiring and the change by what stands between, worked by hand: an isolator adds a feed
/// pair (2 wires), a fuse terminal one wire, a relay two coil wires and the second contact wire.
constexpr PairCase pairs[] = {
    {"DI", "contact", "fused_terminal", false, 2, 2},
    {"DI", "contact", "disconnect_terminal", false, 2, 1},
    {"DI", "contact", "isolator", false, 2, 3},
    {"DI", "3-wire", "surge_arrester", true, 3, 3},
    {"DI_AC", "contact", "relay", false, 2, 4},
    {"DI_NAMUR", "2-wire", "barrier", false, 3, 3},
    {"DO", "2-wire", "relay", true, 2, 4},
    {"DO", "2-wire", "solid_state", true, 2, 4},
    {"DO", "2-wire", "fused_terminal", true, 2, 2},
    {"DO", "internal", "relay", false, 0, 5},
    {"DO_RELAY", "contact", "relay", false, 2, 4},
    {"DO_RELAY", "changeover", "relay", false, 3, 5},
    {"DO_RELAY", "contact", "fused_terminal", false, 2, 3},
    {"DO_AC", "2-wire", "fused_terminal", true, 3, 2},
    {"DO_SAFE", "2-wire", "relay", true, 2, 8},
    {"AI_MA", "2-wire", "isolator", true, 3, 4},
    {"AI_MA", "2-wire", "resistor", true, 3, 2},
    {"AI_MA", "4-wire", "direct", true, 6, 4},
    {"AI_BRIDGE", "6-wire", "surge_arrester", true, 7, 10},
    {"RTD", "3-wire", "transmitter", false, 4, 5},
    {"RTD", "3-wire", "surge_arrester", false, 4, 7},
    {"TC", "2-wire", "barrier", false, 3, 4},
    {"CNT", "3-wire", "isolator", true, 4, 4},
    {"SERIAL", "2-wire", "surge_arrester", false, 4, 5},
};

ChannelWiring wiring_of(const PairCase& each) {
    const RuleBook& rules = starter_rules();
    PointLine points;
    points.signal = each.signal;
    points.wiring = each.wiring;
    points.via = each.via;
    points.fed_from_box = each.fed;
    DemandLine line;
    line.points = &points;
    line.signal = line.module = rules.find_signal(each.signal);
    line.interface = rules.find_interface(each.via, each.signal);
    std::vector<std::string> limits;
    const LineWiring wiring = line_wiring(line, rules, limits);
    CHECK(limits.empty());
    return std::string(each.via) == "direct" ? wiring.direct : wiring.via;
}

const InterfaceFact* fact_of(const BoxFacts& facts, const std::string& part) {
    for (const InterfaceFact& fact : facts.interfaces)
        if (fact.part->key == part) return &fact;
    return nullptr;
}

std::int64_t on_bill(const PanelDesign& design, const std::string& part) {
    std::int64_t pieces = 0;
    for (const BillItem& item : design.bill)
        if (item.part && item.part->key == part) pieces += item.quantity;
    return pieces;
}

Rule rule_of(const char* value) {
    Rule rule;
    rule.value = *parse_decimal(value);
    return rule;
}

constexpr const char* spare_stated = R"(, "spare": {"percent": 20, "kind": "wired"})";

} // namespace

TEST_CASE("every pair of wiring and interface counts the direct channel and the change") {
    for (const PairCase& each : pairs) {
        CAPTURE(each.signal, each.wiring, each.via);
        const ChannelWiring wiring = wiring_of(each);
        CHECK(piece_steps(wiring.terminals) == each.terminals * steps_per_piece);
        CHECK(piece_steps(wiring.wires) == each.wires * steps_per_piece);
    }
}

TEST_CASE("every word for an interface has a row for every signal it goes with") {
    const RuleBook& rules = starter_rules();
    int judged = 0;
    for (const WordRow& row : rules.words) {
        if (row.key != "boxes[].points[].via" || row.word == "direct") continue;
        std::string list = row.applies_to + " ";
        for (std::size_t at = 0, end; (end = list.find(' ', at)) != std::string::npos;
             at = end + 1) {
            CAPTURE(row.word, list.substr(at, end - at));
            CHECK(rules.find_interface(row.word, list.substr(at, end - at)));
            ++judged;
        }
    }
    CHECK(judged >= 60);
}

// Worked by hand. 10 DO by relay, 5 AI_MA by isolator, 4 DI behind fuse terminals, 20 % spare,
// wired: required 12, 6, 5.
//   terminals  DO 12 × 2 = 24, AI_MA 6 × 3 = 18 (two and a shield), DI 5 × 2 = 10: 52
//   of these   fuse 5; disconnect 6 (one of each loop); plain 41 and those of the box's devices
//   wires      DO 12 × 4 = 48, AI_MA 6 × 4 = 24, DI 5 × 2 = 10: 82
//   pieces     12 relays, 6 isolators
TEST_CASE("a box of relays, isolators and fuse terminals counts as by hand") {
    const PriceBook book = book_with_functions();
    const BidRequest request = request_of(box_request(
        R"({"signal": "DO", "count": 10, "via": "relay"},
           {"signal": "AI_MA", "count": 5, "via": "isolator"},
           {"signal": "DI", "count": 4, "via": "fused_terminal"})",
        "", spare_stated));
    Work work;
    const PanelChoice choice = choose_panel(request, request.boxes[0], book, starter_rules(), work);
    REQUIRE(choice.design);
    const PanelDesign& design = *choice.design;
    const BoxFacts& facts = choice.search->facts;
    REQUIRE(fact_of(facts, "KT-R06"));
    CHECK(fact_of(facts, "KT-R06")->count == 12);
    CHECK(fact_of(facts, "T-ISO")->count == 6);
    std::int64_t terminals = 0, wires = 0;
    for (const LineWiring& line : facts.wiring) {
        CHECK(line.direct.channels == 0);
        terminals += line.via.channels * piece_steps(line.via.terminals);
        wires += line.via.channels * piece_steps(line.via.wires);
    }
    CHECK(whole_pieces(terminals) == 52);
    CHECK(whole_pieces(wires) == 82);
    // Channels fitted beyond: 16 or more DO, AI and DI channels, each as the dearest direct line.
    std::int64_t extra = 0;
    for (const ModuleUse& use : design.arrangement->member.uses) extra += use.extra[1];
    CHECK(on_bill(design, "T-FUSE") == 5);
    CHECK(on_bill(design, "T-OPEN") == 6 + extra); // a further loop opens as well
    CHECK(on_bill(design, "KT-025") == design.terminals - 5 - 6 - extra);
    CHECK(on_bill(design, "T-ISO") == 6);
    CHECK(on_bill(design, "KT-R06") == 12);
}

TEST_CASE("interfaces serve the points in use where the spare is not stated as wired") {
    const PriceBook book = book_with_functions();
    const BidRequest request =
        request_of(box_request(R"({"signal": "DO", "count": 10, "via": "relay"})"));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    REQUIRE(facts.interfaces.size() == 1);
    CHECK(facts.interfaces[0].count == 10);
    CHECK(facts.wiring[0].via.channels == 10);
    CHECK(facts.wiring[0].direct.channels == 2);
}

// A force-guided relay per contact, two contacts in series: two per channel; the output feeds both
// coils, 2 × 0.042 A.
TEST_CASE("two parts per channel are two parts and twice the current") {
    const PriceBook book = book_with_functions();
    const BidRequest request =
        request_of(box_request(R"({"signal": "DO_SAFE", "count": 3, "via": "relay"})", "",
                               R"(, "spare": {"percent": 0, "kind": "wired"})"));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    REQUIRE(facts.interfaces.size() == 1);
    CHECK(facts.interfaces[0].part->key == "T-SAFE");
    CHECK(facts.interfaces[0].count == 6);
    CHECK(facts.demand.lines[0].module_amps == Approx(0.084));
}

// The coil hangs on the field contact: no 24 V for it, 0.6 W each; its contact feeds a DI of the
// module. A relay without a function has a 24 V coil and does not serve.
TEST_CASE("a relay with a mains coil stands before an input") {
    const PriceBook book = book_with_functions();
    const BidRequest request =
        request_of(box_request(R"({"signal": "DI_AC", "count": 8, "volts": 230, "via": "relay"})",
                               "", R"(, "spare": {"percent": 0, "kind": "wired"})"));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    CHECK(facts.limits.empty());
    CHECK(facts.demand.mix.at(0).signal == "DI");
    const BoxLoad load = sum_of(fixed_consumers(facts, starter_rules()));
    CHECK(load.all_on_a == 0);
    CHECK(load.inside_w == Approx(8 * 0.6));
    const PriceBook demo = demo_book();
    const BoxFacts plain = box_facts(request, request.boxes[0], demo, starter_rules());
    const bool served = !plain.interfaces.empty() && plain.interfaces[0].part->key == "KT-R06";
    CHECK_FALSE(served);
}

// Ten loops: direct 10 × 0.025 A leaves to the field; behind a barrier that feeds the loop only its
// own 10 × 0.06 A count, of which 1.2 W each stays inside, and the inputs' 0.02² × 250 ohm.
TEST_CASE("a barrier that feeds the loop replaces the loop current") {
    const PriceBook book = book_with_functions();
    const auto load_of = [&](const std::string& via) {
        const BidRequest request =
            request_of(box_request(R"({"signal": "AI_MA", "count": 10)" + via + "}", "",
                                   R"(, "spare": {"percent": 0, "kind": "wired"})"));
        const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
        CHECK(facts.limits.empty());
        return sum_of(fixed_consumers(facts, starter_rules()));
    };
    const RuleBook& rules = starter_rules();
    const double input_w = 10 * rules.heat.loop_current.number() *
                           rules.heat.loop_current.number() * rules.heat.loop_resistance.number();
    CHECK(load_of("").all_on_a == Approx(0.25));
    CHECK(load_of(R"(, "via": "barrier")").all_on_a == Approx(0.6));
    CHECK(load_of(R"(, "via": "barrier")").inside_w == Approx(12 + input_w));
    CHECK(load_of(R"(, "via": "isolator")").all_on_a == Approx(0.25 + 0.45));
}

TEST_CASE("a transmitter asks the module for a loop input") {
    const PriceBook book = book_with_functions();
    const BidRequest request =
        request_of(box_request(R"({"signal": "RTD", "count": 4, "via": "transmitter"})"));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    CHECK(facts.limits.empty());
    CHECK(facts.demand.mix.at(0).signal == "AI_MA");
    CHECK_FALSE(facts.demand.mix.at(0).switched);
}

TEST_CASE("a book without terminals by function keeps its plain terminal, said by the facts") {
    std::vector<Part> parts = demo_parts();
    std::erase_if(parts,
                  [](const Part& part) { return part.kind == "terminal" && part.key != "KT-025"; });
    const PriceBook book(parts, 1);
    const BidRequest request =
        request_of(box_request(R"({"signal": "DI", "count": 4, "via": "fused_terminal"})"));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    const FixedParts fixed = fixed_parts(book, facts, starter_rules());
    CHECK(fixed.own_terminals.empty());
    CHECK(fixed.plain_instead == std::vector<std::string>{"fuse"});
    CHECK(fixed.terminal->key == "KT-025");
}

// RS-1, scenario O01: 64 channels of 1.3 wires, 12 of 2, 2 of 3, and 30 per box: 143.2 wires.
TEST_CASE("wires with decimals are summed exactly and rounded once") {
    const Rule digital = rule_of("1.3"), loop = rule_of("2"), counter = rule_of("3");
    const Rule box = rule_of("30");
    const std::vector<CountTerm> terms{
        {48, &digital}, {16, &digital}, {12, &loop}, {2, &counter}, {1, &box}};
    CHECK(piece_steps(terms) == 1'432'000);
    CHECK(whole_pieces(piece_steps(terms)) == 143);
    CHECK(whole_pieces(piece_steps(std::vector<CountTerm>{{5, &digital}})) == 7); // 6.5
    CHECK(whole_pieces(0) == 0);
}
