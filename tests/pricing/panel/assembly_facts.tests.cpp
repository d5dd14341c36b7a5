// Rows of the assembly table are an invented example (common practice, no source); what is judged
// here is the counting, worked by hand.
#include "pricing/panel/assembly_facts.h"

#include <catch2/catch.hpp>
#include <set>

#include "pricing/panel/choose_panel.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

BidRequest with_assemblies(const std::string& assemblies, const std::string& points = "") {
    return request_of(box_request(points, R"(, "assemblies": [)" + assemblies + "]",
                                  R"(, "spare": {"percent": 0, "kind": "wired"})"));
}

constexpr const char* three_motors = R"({"name": "motor, direct on line", "quantity": 3})";

/// The demo book without devices, and contactors and breakers of our own.
PriceBook book_with_devices() {
    std::vector<Part> parts = demo_parts();
    std::erase_if(parts, [](const Part& part) { return part.kind == "device"; });
    for (const char* function : {"motor breaker", "contactor", "auxiliary contact"}) {
        Part part;
        part.key = std::string("T-") + function;
        part.kind = "device";
        part.function = function;
        part.list = Money::parse("30.00");
        part.width_mm = 45;
        part.height_mm = 80;
        part.depth_mm = 85;
        if (part.function == "contactor") part.own_a = 0.1;
        parts.push_back(part);
    }
    return PriceBook(parts, 1);
}

const EquipmentFact& fact_of(const BoxFacts& facts, const std::string& function) {
    for (const EquipmentFact& fact : facts.equipment)
        if (fact.asked->text == function) return fact;
    throw std::runtime_error("no " + function);
}

} // namespace

// Each: one DO, two DI, breaker, contactor, two auxiliary contacts, one suppressor, 7 wires, 4
// terminals; a new sheet and 240 min for the first, a typical sheet and 45 min for each further
// one.
TEST_CASE("three motors bring their points, parts, wires, terminals, sheets and minutes") {
    const BidRequest request = with_assemblies(three_motors);
    const PriceBook book = book_with_devices();
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    REQUIRE(facts.limits.empty());
    REQUIRE(facts.demand.signals.size() == 2);
    CHECK(facts.demand.signals[0].signal == "DO");
    CHECK(facts.demand.signals[0].used == 3);
    CHECK(facts.demand.signals[1].used == 6);
    CHECK(fact_of(facts, "motor breaker").asked->quantity == 3);
    CHECK(fact_of(facts, "auxiliary contact").asked->quantity == 6);
    CHECK(fact_of(facts, "contactor").part->key == "T-contactor");
    using Brings = AssemblyRow::Brings;
    using Occurrence = AssemblyRow::Occurrence;
    CHECK(assembly_sum(facts, Brings::wires, Occurrence::each) == 21);
    CHECK(assembly_sum(facts, Brings::terminals, Occurrence::each) == 12);
    CHECK(assembly_sum(facts, Brings::sheets, Occurrence::first) == 1);
    CHECK(assembly_sum(facts, Brings::sheets, Occurrence::repeat) == 2);
    CHECK(assembly_sum(facts, Brings::minutes, Occurrence::first) == 240);
    CHECK(assembly_sum(facts, Brings::minutes, Occurrence::repeat) == 90);
}

// Three coils of 0.1 A at 24 V, all of it heat inside.
TEST_CASE("coils of an assembly load the supply") {
    const BidRequest request = with_assemblies(three_motors);
    const PriceBook book = book_with_devices();
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    double amps = 0;
    for (const EquipmentFact& fact : facts.equipment) amps += fact.amps_24v * fact.asked->quantity;
    CHECK(amps == Approx(0.3));
}

TEST_CASE("a part that the price book lacks is a line without a price") {
    const BidRequest request = with_assemblies(three_motors);
    const PriceBook book = book_with_devices();
    Work work;
    const PanelChoice choice = choose_panel(request, request.boxes[0], book, starter_rules(), work);
    REQUIRE(choice.design);
    int without = 0;
    for (const BillItem& item : choice.design->bill)
        if (item.role == "assembly" && !item.part) {
            CHECK(item.equipment->asked->text == "coil suppressor");
            CHECK_FALSE(item.equipment->asked->price);
            ++without;
        }
    CHECK(without == 1);
}

TEST_CASE("software of assembly points is in the assembly's minutes alone") {
    const PriceBook book = book_with_devices();
    const auto counts_of = [&](BidRequest request) {
        request.spare.kind = SpareKind::installed; // idle channels take no terminals
        Work work;
        const PanelChoice choice =
            choose_panel(request, request.boxes[0], book, starter_rules(), work);
        REQUIRE(choice.design);
        return choice.design->counts;
    };
    const BoxCounts bare = counts_of(with_assemblies("", R"({"signal": "DI", "count": 2})"));
    const BoxCounts more =
        counts_of(with_assemblies(three_motors, R"({"signal": "DI", "count": 2})"));
    CHECK(more.points == bare.points + 9);
    CHECK(more.points_by_class.at("digital") == bare.points_by_class.at("digital"));
    CHECK(bare.assembly_minutes == 0);
    CHECK(more.assembly_minutes == 330);
    CHECK(more.sheets_new == bare.sheets_new + 1);
    CHECK(more.terminals >= bare.terminals + 12);
    CHECK(more.wires >= bare.wires + 21 + 9 * 2);
}

/// Networks that are set up, with this many network devices of a drive on the bus.
int networks(const std::string& devices) {
    RuleTables tables = read_rules_dir(BACKPLATE_SOURCE_TREE "/catalog/starter/rules");
    for (RuleRow& row : tables.table("assemblies").rows)
        if (row.key == "motor, drive on bus: network devices") row.cells[3] = devices;
    const RuleBookResult rules = make_rule_book(tables);
    REQUIRE(rules.book);
    const BidRequest request =
        with_assemblies(R"({"name": "motor, drive on bus"})", R"({"signal": "DI", "count": 4})");
    const PriceBook book = demo_book();
    Work work;
    const PanelChoice choice = choose_panel(request, request.boxes[0], book, *rules.book, work);
    REQUIRE(choice.design);
    return choice.design->counts.networks;
}

TEST_CASE("an assembly that brings no network device sets no network up") {
    CHECK(networks("1") == 1);
    CHECK(networks("0") == 0);
}

TEST_CASE("the same assembly twice in a list has one first piece") {
    const BidRequest request = with_assemblies(
        R"({"name": "valve, modulating", "quantity": 1}, {"name": "valve, modulating"})");
    const BoxFacts facts = box_facts(request, request.boxes[0], demo_book(), starter_rules());
    CHECK(assembly_sum(facts, AssemblyRow::Brings::minutes, AssemblyRow::Occurrence::first) == 240);
    CHECK(assembly_sum(facts, AssemblyRow::Brings::minutes, AssemblyRow::Occurrence::repeat) == 45);
    CHECK(facts.demand.signals[0].used == 2);
}

TEST_CASE("every assembly of the starter rules can be sized and has minutes for first and repeat") {
    std::set<std::string> names;
    for (const AssemblyRow& row : starter_rules().assemblies) names.insert(row.assembly);
    CHECK(names.size() == 12);
    for (const std::string& name : names) {
        CAPTURE(name);
        const BidRequest request = with_assemblies(R"({"name": ")" + name + R"(", "quantity": 2})",
                                                   R"({"signal": "DI", "count": 1})");
        const BoxFacts facts = box_facts(request, request.boxes[0], demo_book(), starter_rules());
        CHECK(facts.limits.empty());
        using Occurrence = AssemblyRow::Occurrence;
        CHECK(assembly_sum(facts, AssemblyRow::Brings::minutes, Occurrence::first) > 0);
        CHECK(assembly_sum(facts, AssemblyRow::Brings::minutes, Occurrence::repeat) > 0);
    }
}
