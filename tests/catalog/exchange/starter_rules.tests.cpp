#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "catalog/exchange/rules_csv.h"
#include "pricing/book/rule_book.h"

using namespace backplate;

namespace {

const std::string tree = BACKPLATE_SOURCE_TREE;
const std::string starter = tree + "/catalog/starter/rules";
const std::string fish_pass = tree + "/tests/worked_jobs/fish_pass/rules.csv";

std::string faults_text(const std::vector<RuleFault>& faults) {
    std::string text;
    for (const RuleFault& fault : faults)
        text += fault.table + "/" + fault.row + " " + fault.column + ": " + fault.text + "\n";
    return text;
}

RuleBook book_of(const RuleTables& tables) {
    const RuleBookResult result = make_rule_book(tables);
    INFO(faults_text(result.faults));
    REQUIRE(result.book);
    return *result.book;
}

std::vector<std::string> active_keys(const RuleTables& tables, std::string_view name) {
    std::vector<std::string> keys;
    for (const RuleRow& row : tables.find(name)->rows)
        if (row.active) keys.push_back(row.key);
    return keys;
}

} // namespace

TEST_CASE("the starter rules make a book") {
    const RuleTables tables = read_rules_dir(starter);
    CHECK(faults_text(check_rules(tables)).empty());
    const RuleBook book = book_of(tables);
    CHECK(book.signals.size() == 22);
    CHECK(book.defaults.size() == 148);
    CHECK(book.labour.size() == 75);
    CHECK(book.findings.size() == 118);
    CHECK(book.texts.at("shop/practice") == "iec");
    CHECK_FALSE(book.norms_confirmed);
}

TEST_CASE("every starter row has a source and says how far it can be trusted") {
    int judged = 0;
    for (const RuleTable& table : read_rules_dir(starter).tables)
        for (const RuleRow& row : table.rows) {
            CAPTURE(table.name, row.key);
            CHECK_FALSE(row.source.empty());
            CHECK_FALSE(row.confidence.empty());
            ++judged;
        }
    CHECK(judged >= 900);
}

TEST_CASE("every signal has terminals and wires for its usual wiring") {
    const RuleBook book = book_of(read_rules_dir(starter));
    for (const Signal& signal : book.signals) {
        CAPTURE(signal.key);
        CHECK(book.terminals.contains(signal.key + " " + signal.wiring));
        CHECK(book.wires.contains(signal.key + " " + signal.wiring));
    }
}

// Terminals: electrical-facts 8 (field + shield + protective conductor). Conductors: IEC 60204-1
// table 6 column B1, NFPA 70 table 310.16. Duct: fill × w × h ÷ (π d² ÷ 4), d 2.6 mm. Losses:
// three points of catalogue supplies, from memory. Materials: handbook values. Digits: ISO 4217.
TEST_CASE("starter figures agree with their sources") {
    const RuleBook book = book_of(read_rules_dir(starter));
    CHECK(book.terminals.at("AI_MA 2-wire").text() == "3");
    CHECK(book.terminals.at("CNT 3-wire").text() == "4");
    CHECK(book.terminals.at("DO_AC 2-wire").text() == "2");
    CHECK(book.wires.at("DO relay").text() == "4");
    CHECK(book.supply.knee_c.text() == "55");
    CHECK(book.losses.at("supply_loss").l0.text() == "0.012");
    CHECK(book.find_material("painted_steel")->u_low.text() == "4.0");
    CHECK(book.room.duct_widths.size() == 6);
    CHECK(book.room.duct_widths[1].high_number() ==
          Approx(0.5 * 40 * 60 / (M_PI * 1.69)).margin(1));
    CHECK(book.room.sharings.size() == 3);
    CHECK(book.breaker_ratings_iec.front().number() == 6);
    CHECK(book.breaker_ratings_north_america.size() == 37);
    const auto conductor =
        std::find_if(book.conductors.begin(), book.conductors.end(),
                     [](const Conductor& each) { return each.key == "north_america 14 AWG"; });
    REQUIRE(conductor != book.conductors.end());
    CHECK(conductor->ampacity.number() == 15);
    CHECK(book.policy.round_up_to.text() == "10.00");
    CHECK(book.digits_of("JPY") == 0);
    CHECK(book.digits_of("KWD") == 3);
    CHECK(book.digits_of("HUF") == 2);
}

// Codes, severities and limits: the agreed list of findings.
TEST_CASE("starter findings carry severity, limit and caution") {
    const RuleBook book = book_of(read_rules_dir(starter));
    CHECK(book.find_finding("UNBUILDABLE")->severity == Severity::stop);
    CHECK(book.find_finding("HEAT")->severity == Severity::warning);
    CHECK(book.find_finding("TERMINALS")->severity == Severity::note);
    CHECK(book.find_finding("PRICE_OLD")->limit->text() == "180");
    CHECK_FALSE(book.find_finding("HEAT")->limit);
    CHECK(book.find_finding("LOCKOUT")->caution);
    CHECK_FALSE(book.find_finding("HEAT")->caution);
    CHECK(book.find_finding("NONE") == nullptr);
}

TEST_CASE("a word that a default refers to must be one of its key") {
    RuleTables tables = read_rules_dir(starter);
    for (RuleRow& row : tables.table("shop").rows)
        if (row.key == "practice") row.cells[0] = "IEC";
    const RuleBookResult result = make_rule_book(tables);
    CHECK(result.book == nullptr);
    CHECK_THAT(faults_text(result.faults),
               Catch::StartsWith("shop/practice value: 'IEC', expected a word of the table words"));
}

// The minutes of a wire: reading 1.9 and landing 4.3; a published study has 6 to 6.5 in all.
TEST_CASE("starter hours: one norm per wire in two parts, percentages of other hours") {
    const RuleBook book = book_of(read_rules_dir(starter));
    double wire = 0;
    std::set<std::string> percentages;
    for (const LabourNorm& norm : book.labour) {
        if (norm.driver == "internal wire" && norm.activity == "wiring") wire += norm.rule.number();
        if (norm.hours_per_unit == 0.01) percentages.insert(norm.rule.text() + " " + norm.driver);
    }
    CHECK(wire == Approx(6.2));
    CHECK(percentages ==
          std::set<std::string>{"10 hours: engineering drawings software screens network",
                                "15 hours: engineering drawings software screens network",
                                "5 hours: all other classes"});
}

TEST_CASE("the worked job's rules replace the tables that they name and no other") {
    const RuleTables before = read_rules_dir(starter);
    const RuleTables after = with_rules_file(before, fish_pass);
    CHECK(active_keys(after, "hours").size() == 20);
    CHECK(after.find("hours")->rows.size() == 20);
    CHECK(active_keys(after, "room") == std::vector<std::string>{"duct_and_clearance_mm",
                                                                 "device_row_mm", "terminal_row_mm",
                                                                 "strip_ends_mm"});
    CHECK(active_keys(after, "shop") == std::vector<std::string>{"practice"});
    for (const char* same : {"signals", "defaults", "sheets", "conductors", "currencies"})
        CHECK(*after.find(same) == *before.find(same));
    const RuleBook book = book_of(after);
    CHECK(book.supply.knee_c.text() == "50");
    CHECK(book.supply.knee_c.source == "climate-and-supply 5.2");
    CHECK_FALSE(book.supply.altitude_percent_per_km);
    CHECK(book.room.duct_widths.empty());
    CHECK_FALSE(book.room.one_row_if_it_fits);
    CHECK(book.wires.at("per box").text() == "30");
    CHECK(book.ratios.size() == 4);
    CHECK(book.ratios[1].high->text() == "55");
    CHECK(book.texts.at("price_policy/margin") == "20");
}

TEST_CASE("the worked job's norms keep what they are counted by") {
    struct Expected {
        const char *row, *value, *activity, *work_class, *driver;
        bool once;
        double unit;
    };
    // Rows and values: the worked job; activity, class and driver: the hours of its estimate.
    const Expected expected[] = {
        {"engineering_digital", "0.2", "engineering", "engineering", "digital or special point",
         true, 1},
        {"drawings_per_box", "14", "drawings", "engineering", "box", true, 1},
        {"software_CNT_module", "6", "software", "software", "module CNT", true, 1},
        {"mount_module", "10", "mounting", "shop", "module or controller", false, 1.0 / 60},
        {"mount_device", "15", "mounting", "shop", "device", false, 1.0 / 60},
        {"wire", "6", "wiring", "shop", "internal wire", false, 1.0 / 60},
        {"wire_check", "2", "wire_check", "shop", "internal wire", false, 1.0 / 60},
        {"test_per_channel", "8", "works_test", "test", "channel tested", false, 1.0 / 60},
        {"documents_percent", "12", "documents", "engineering",
         "hours: engineering drawings software screens", true, 0.01},
        {"project_percent", "8", "project_lead", "project", "hours: all other", true, 0.01},
        {"purchasing", "4", "purchasing", "project", "job", true, 1}};
    const RuleBook book = book_of(with_rules_file(read_rules_dir(starter), fish_pass));
    for (const Expected& each : expected) {
        CAPTURE(each.row);
        const auto norm =
            std::find_if(book.labour.begin(), book.labour.end(), [&](const LabourNorm& candidate) {
                return candidate.rule.id == std::string("hours/") + each.row;
            });
        REQUIRE(norm != book.labour.end());
        CHECK(norm->rule.text() == each.value);
        CHECK(norm->activity == each.activity);
        CHECK(norm->work_class == each.work_class);
        CHECK(norm->driver == each.driver);
        CHECK(norm->once == each.once);
        CHECK(norm->hours_per_unit == each.unit);
    }
}
