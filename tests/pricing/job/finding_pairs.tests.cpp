// For every code a request with its trigger and one without it. Triggers are those of the findings
// table (trade-practice 5, practice of enquiries); what is judged is our own reading of them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>

#include "pricing/job/findings.h"
#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Estimate estimate_of(const std::string& json, const PriceBook& book = demo_book()) {
    Work work;
    return price_job(request_of(json), book, starter_rules(), work);
}

const Finding* find(const Estimate& estimate, const std::string& code) {
    for (const Finding& finding : estimate.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

std::string param(const Finding& finding, const std::string& name) {
    for (const auto& [key, value] : finding.params)
        if (key == name) return value;
    return "(none)";
}

const std::string plain_points = R"({"signal": "DI", "count": 8}, {"signal": "DO", "count": 4})";

std::string box(const std::string& more) { return box_request(plain_points, more); }
std::string job(const std::string& more) { return box_request(plain_points, "", more); }
std::string points(const std::string& list) { return box_request(list); }
std::string circumstance(const std::string& key) {
    return job(R"(, "circumstances": [")" + key + R"("])");
}

struct Pair {
    const char* code;
    std::string with, without;
};

std::vector<Pair> request_pairs() {
    const std::string plain = box("");
    const std::string spare = R"(, "spare": {"percent": 20})";
    return {
        {"SPARE_BASIS", plain, job(spare)},
        {"SPARE_BASIS", job(R"(, "spare": {"basis": "of_installed", "percent": 20})"), job(spare)},
        {"SPARE_BASIS", job(R"(, "spare": {"minimum_channels": {"DO": 2}})"), job(spare)},
        {"SPACE_SPARE", plain, box(R"(, "choices": {"room_percent": 0})")},
        {"NO_POINTS", points(R"({"signal": "DI", "count": 0})"), plain},
        {"SIGNAL_SUBTYPE", points(R"({"signal": "RTD", "count": 2})"), plain},
        {"SIGNAL_SUBTYPE", points(R"({"signal": "CNT", "count": 1})"), plain},
        {"FIELD_POWER", points(R"({"signal": "DO", "count": 4, "amps": 0.5})"),
         points(R"({"signal": "DI", "count": 4, "amps": 0})")},
        {"OUTPUT_WITHOUT_LOAD", points(R"({"signal": "DO", "count": 4, "amps": 0})"), plain},
        {"SIMULTANEITY", points(R"({"signal": "DO", "count": 4, "on_together_percent": 50})"),
         plain},
        {"SECOND_SUPPLY", points(R"({"signal": "DI_AC", "count": 4})"), plain},
        {"SECOND_SUPPLY", circumstance("second_supply"), plain},
        {"BATTERY_BUDGET", circumstance("battery_budget"), plain},
        {"AC_SEGREGATION", points(plain_points + R"(, {"signal": "DI_AC", "count": 4})"),
         points(R"({"signal": "DI_AC", "count": 4})")},
        {"SAFETY_DUAL", points(R"({"signal": "DI_SAFE", "count": 4})"), plain},
    };
}

std::vector<Pair> circumstance_pairs() {
    const std::string plain = box("");
    return {
        {"SAFETY_SCOPE", circumstance("safety_function"), plain},
        {"VIBRATION", circumstance("vibration"), plain},
        {"HAZARD_AREA", circumstance("hazardous_area"), plain},
        {"AREA_UNCLASSIFIED", plain, circumstance("hazardous_area")},
        {"TERMS", circumstance("unusual_terms"), plain},
        {"SCOPE_MOVING", circumstance("scope_moving"), plain},
        {"ALTERNATE", circumstance("alternates"), plain},
        {"CURRENCY", circumstance("foreign_currency"), plain},
        {"OBSOLETE", circumstance("obsolete_parts"), plain},
        {"LEADTIME", circumstance("long_lead"), plain},
        {"LEADTIME", job(R"(, "job": {"deliver_weeks": 1})"),
         job(R"(, "job": {"deliver_weeks": 100})")},
        {"SITE_LABOUR", circumstance("site_work"), plain},
        {"UNIT_PRICES", circumstance("unit_prices"), plain},
    };
}

std::vector<Pair> job_pairs() {
    const std::string plain = box("");
    return {
        {"SITE_LABOUR", job(R"(, "scope": {"site_days": 2})"), plain},
        {"SOFTPOINTS", box(R"(, "work": {"soft_points": 40})"), plain},
        {"SOFTPOINTS", box(R"(, "work": {"network_devices": 1})"), plain},
        {"CYBER_EXCLUDED", box(R"(, "work": {"network_devices": 1})"), plain},
        {"DOC_LABOUR", job(R"(, "scope": {"documents": "full"})"), plain},
        {"DOC_LABOUR", job(R"(, "scope": {"languages": 2})"), plain},
        {"DOC_LABOUR", job(R"(, "scope": {"witness_days": 1})"), plain},
        {"DUTY_FREIGHT", job(R"(, "commercial": {"delivery_term": "DAP"})"), plain},
        {"SCOPE_CONTRADICTION",
         job(R"(, "commercial": {"delivery_term": "DAP"}, "scope": {"transport": "excluded"})"),
         job(R"(, "commercial": {"delivery_term": "DAP"}, "scope": {"transport": "included"})")},
        {"SCOPE_CONTRADICTION", job(R"(, "scope": {"site_days": 1})"), plain},
        {"SCOPE_CONTRADICTION", job(R"(, "scope": {"works_test": "excluded", "witness_days": 1})"),
         job(R"(, "scope": {"works_test": "included", "witness_days": 1})")},
        {"SCOPE_CONTRADICTION", job(R"(, "scope": {"documents": "none", "languages": 2})"),
         job(R"(, "scope": {"documents": "basic", "languages": 2})")},
        {"CLASS5", job(R"(, "job": {"estimate_class": 4})"),
         job(R"(, "job": {"estimate_class": 3})")},
        {"DUE_SOON", job(R"(, "job": {"due": "2026-11-25"})"),
         job(R"(, "job": {"due": "2026-11-26"})")},
        {"CONTINGENCY_LOW", job(R"(, "commercial": {"contingency_percent": 1.9})"),
         job(R"(, "commercial": {"contingency_percent": 2})")},
        {"MARGIN_LOW", job(R"(, "commercial": {"margin_percent": 5})"), plain},
        {"BATCH_LEARNING", box(R"(, "quantity": 2)"), plain},
        {"TARGET_MISSED", job(R"(, "commercial": {"target_price": "900.00"})"),
         job(R"(, "commercial": {"target_price": "900000.00"})")},
        {"DUTY_FREIGHT", job(R"(, "commercial": {"delivery_term": "DDP"})"),
         job(R"(, "commercial": {"delivery_term": "EXW"})")},
    };
}

std::vector<Pair> box_pairs() {
    const std::string plain = box("");
    return {
        {"HAND_CHOICES", box(R"(, "choices": {"exclude": ["VC-101"]})"), plain},
        {"HAND_CHOICE_AGAINST_RULE", box(R"(, "choices": {"exclude": ["no such part"]})"),
         box(R"(, "choices": {"exclude": ["VC-101"]})")},
        {"AMBIENT", box(R"(, "site": {"ambient_c": [5, 41]})"),
         box(R"(, "site": {"ambient_c": [5, 40]})")},
        {"AMBIENT_LOW", box(R"(, "site": {"ambient_c": [-1, 40]})"),
         box(R"(, "site": {"ambient_c": [0, 40]})")},
        {"ALTITUDE", box(R"(, "site": {"altitude_m": 1001})"),
         box(R"(, "site": {"altitude_m": 1000})")},
        {"CONDENSATION", box(R"(, "site": {"humidity_percent": 91})"),
         box(R"(, "site": {"humidity_percent": 90})")},
        {"CONDENSATION", box(R"(, "site": {"place": "outdoor_shade", "ambient_c": [4, 40]})"),
         box(R"(, "site": {"place": "outdoor_shade", "ambient_c": [5, 40]})")},
        {"INGRESS", box(R"(, "site": {"protection": "IP65"})"),
         box(R"(, "site": {"protection": "IP54"})")},
        {"INGRESS", box(R"(, "site": {"protection": "IP55"})"),
         box(R"(, "site": {"protection": "IP4X"})")},
        {"INGRESS", box(R"(, "site": {"protection": "Type 4"})"),
         box(R"(, "site": {"protection": "Type 12"})")},
        {"CORROSION", box(R"(, "site": {"corrosion": "salt"})"), plain},
        {"APPROVAL", box(R"(, "site": {"approvals": ["UL 508A"]})"), plain},
        {"SCCR_UNKNOWN", plain, box(R"(, "site": {"fault_current_ka": 5})")},
        {"UNBUILDABLE", box(R"(, "site": {"max_mm": {"width": 100}})"), plain},
        {"LIMITS_TOGETHER", box(R"(, "site": {"max_mm": {"width": 100}})"), plain},
    };
}

} // namespace

TEST_CASE("every code is raised by its trigger and not without it") {
    int judged = 0;
    for (const auto& pairs : {request_pairs(), circumstance_pairs(), job_pairs(), box_pairs()})
        for (const Pair& pair : pairs) {
            CAPTURE(pair.code, pair.with, pair.without);
            REQUIRE(starter_rules().find_finding(pair.code));
            CHECK(find(estimate_of(pair.with), pair.code));
            CHECK_FALSE(find(estimate_of(pair.without), pair.code));
            ++judged;
        }
    std::cout << "findings: " << judged << " pairs judged\n";
    CHECK(judged >= 60);
}

TEST_CASE("cautions that stand on every estimate, and those of a box that is built") {
    const Estimate built = estimate_of(box(""));
    const Estimate unbuilt = estimate_of(box(R"(, "site": {"max_mm": {"width": 100}})"));
    for (const char* code :
         {"QUANTITIES_AS_STATED", "QUALIFIED_REVIEW", "LOCAL_CODE", "SAFETY_NOT_CLAIMED", "LOCKOUT",
          "SITE_AS_TAKEN", "FIELD_EXCLUDED", "LISTING_NOT_CLAIMED"}) {
        CAPTURE(code);
        CHECK(find(built, code));
        CHECK(find(unbuilt, code));
    }
    for (const char* code : {"SCCR_OFFERED", "STUDIES_EXCLUDED", "OPENINGS_ON_SITE",
                             "SPARE_INCLUDED", "PRICE_BASIS", "DEMO_DATA", "NORMS_UNCONFIRMED"}) {
        CAPTURE(code);
        CHECK(find(built, code));
        CHECK_FALSE(find(unbuilt, code));
    }
}

TEST_CASE("every parameter of a finding's text is filled") {
    int judged = 0;
    for (const auto& pairs : {request_pairs(), circumstance_pairs(), job_pairs(), box_pairs()})
        for (const Pair& pair : pairs) {
            const Estimate estimate = estimate_of(pair.with);
            for (const Finding& finding : estimate.findings) {
                std::string text = starter_rules().find_finding(finding.code)->text;
                for (const auto& [name, value] : finding.params) {
                    CAPTURE(finding.code, name);
                    CHECK_FALSE(value.empty());
                    const std::string mark = "{" + name + "}";
                    for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark))
                        text.erase(at, mark.size());
                }
                CAPTURE(finding.code, text);
                CHECK(text.find('{') == std::string::npos);
                ++judged;
            }
        }
    CHECK(judged > 500);
}

TEST_CASE("old prices are one finding with further parts in it") {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts) part.price_date = Date::of(2026, 1, 1);
    const Estimate estimate = estimate_of(box(""), PriceBook(parts, 1));
    int count = 0;
    for (const Finding& finding : estimate.findings) count += finding.code == "PRICE_OLD" ? 1 : 0;
    CHECK(count == 1);
    const Finding* old = find(estimate, "PRICE_OLD");
    REQUIRE(old);
    CHECK(param(*old, "age") == "327"); // 1 January to 24 November 2026: day 1 to day 328
    const std::string further = param(*old, "further");
    CHECK(std::count(further.begin(), further.end(), ';') > 5);
    for (Part& part : parts) part.price_date = Date::of(2026, 5, 28); // 180 days: not above
    CHECK_FALSE(find(estimate_of(box(""), PriceBook(parts, 1)), "PRICE_OLD"));
}

TEST_CASE("findings of the parts on the bill") {
    std::vector<Part> parts = demo_parts();
    const Estimate plain = estimate_of(box(""), PriceBook(parts, 1));
    REQUIRE(plain.buildable);
    const auto with = [&](auto change) {
        std::vector<Part> changed = demo_parts();
        for (Part& part : changed)
            if (part.key == plain.boxes.front().modules.front().part) change(part);
        return estimate_of(
            box(R"(, "choices": {"platforms": [")" + plain.systems.front().platform + R"("]})"),
            PriceBook(changed, 1));
    };
    CHECK_FALSE(find(plain, "OBSOLETE"));
    const Estimate old = with([](Part& part) {
        part.state = "phasing_out";
        part.successor = "NEXT-1";
    });
    REQUIRE(find(old, "OBSOLETE"));
    CHECK(param(*find(old, "OBSOLETE"), "successor") == "NEXT-1");
    CHECK_FALSE(find(plain, "HEAT_LOSS_UNKNOWN"));
    CHECK(find(with([](Part& part) { part.own_a = part.own_w = std::nullopt; }),
               "HEAT_LOSS_UNKNOWN"));
    CHECK_FALSE(find(plain, "VALIDITY"));
    CHECK(find(with([](Part& part) { part.valid_until = Date::of(2026, 12, 1); }), "VALIDITY"));
    const Estimate least = with([](Part& part) { part.minimum_order = 5; });
    REQUIRE(find(least, "PACK_ROUNDING"));
    CHECK(find(least, "PACK_ROUNDING")->params.front().second != "");
}

TEST_CASE("a part named by the request lacks its accessory on the bill") {
    // The engine closes its own choices; a part that the request names comes as it is.
    std::vector<Part> parts = demo_parts();
    Part panel;
    panel.key = "X-PANEL";
    panel.kind = "door";
    panel.description = "Panel with a plug apart";
    panel.list = Money::parse("100.00");
    panel.own_a = 0.1;
    panel.accessories = {{"X-PLUG", 1}};
    parts.push_back(panel);
    const std::string with = R"(, "equipment": [{"part": "X-PANEL", "quantity": 1}])";
    const Estimate bare = estimate_of(box(with), PriceBook(parts, 1));
    REQUIRE(find(bare, "PART_MISSING_ACCESSORY"));
    CHECK(param(*find(bare, "PART_MISSING_ACCESSORY"), "accessory") == "X-PLUG");
    parts.back().accessories.clear();
    CHECK_FALSE(find(estimate_of(box(with), PriceBook(parts, 1)), "PART_MISSING_ACCESSORY"));
}

TEST_CASE("type and IP in one job, asked or on the enclosure, are kept apart") {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts)
        if (part.kind == "enclosure") part.type_mark.clear();
    CHECK_FALSE(find(estimate_of(box(""), PriceBook(parts, 1)), "TYPE_AND_IP"));
    for (Part& part : parts)
        if (part.kind == "enclosure") part.type_mark = "Type 12";
    CHECK(find(estimate_of(box(""), PriceBook(parts, 1)), "TYPE_AND_IP"));
}

TEST_CASE("an activity of the scope without hours, and a reason for it") {
    const auto raised = [](const std::string& note) {
        RuleBook rules = starter_rules();
        for (LabourNorm& norm : rules.labour)
            if (norm.activity == "works_test") {
                norm.rule.value = {0, 0};
                norm.note = note;
            }
        Work work;
        const Estimate estimate = price_job(request_of(box("")), demo_book(), rules, work);
        const Finding* finding = find(estimate, "HOURS_ZERO");
        return finding ? param(*finding, "activity") : std::string();
    };
    CHECK(raised("") == "Works test");
    CHECK(raised("tested by the client").empty());
    CHECK_FALSE(find(estimate_of(box("")), "HOURS_ZERO"));
    CHECK_FALSE(find(estimate_of(job(R"(, "scope": {"works_test": "excluded"})")), "HOURS_ZERO"));
}

TEST_CASE("overhead on rates that hold it") {
    RuleBook rules = starter_rules();
    const auto raised = [&] {
        Work work;
        return find(price_job(request_of(box("")), demo_book(), rules, work),
                    "OVERHEAD_ON_CHARGE_OUT") != nullptr;
    };
    CHECK_FALSE(raised());
    rules.policy.rates_are = "charge_out";
    CHECK(raised());
    rules.policy.overhead.value = {0, 0};
    CHECK_FALSE(raised());
}

TEST_CASE("an allowance names its share of the price") {
    std::vector<Part> parts = demo_parts();
    CHECK_FALSE(find(estimate_of(box(""), PriceBook(parts, 1)), "ALLOWANCE"));
    for (Part& part : parts) part.allowance = part.kind == "enclosure";
    const Estimate estimate = estimate_of(box(""), PriceBook(parts, 1));
    const Finding* finding = find(estimate, "ALLOWANCE");
    REQUIRE(finding);
    CHECK_THAT(param(*finding, "amount"), Catch::EndsWith(" % of the price)"));
    for (const BillLine& line : estimate.bill)
        CHECK((line.role == "allowance") == (line.role != "enclosure" && line.allowance));
}

TEST_CASE("values of a copied job that nobody confirmed stop it") {
    BidRequest request = request_of(box(""));
    const auto estimate = [&] {
        Work work;
        return price_job(request, demo_book(), starter_rules(), work);
    };
    CHECK_FALSE(find(estimate(), "INHERITED_UNCONFIRMED"));
    request.inherited = Inherited{7, 0};
    CHECK_FALSE(find(estimate(), "INHERITED_UNCONFIRMED"));
    request.inherited->count = 12;
    const Estimate copied = estimate();
    const Finding* finding = find(copied, "INHERITED_UNCONFIRMED");
    REQUIRE(finding);
    CHECK(finding->severity == Severity::stop);
    CHECK(param(*finding, "count") == "12");
    CHECK(param(*finding, "job") == "7");
}

TEST_CASE("several boxes are counted") {
    BidRequest request = request_of(box(""));
    const PriceBook book = demo_book();
    Work work;
    std::vector<PanelChoice> choices;
    choices.push_back(choose_panel(request, request.boxes.front(), book, starter_rules(), work));
    const auto split = [&](int boxes) {
        Estimate estimate;
        estimate.request = request;
        for (int i = 1; i < boxes; ++i) estimate.request.boxes.push_back(request.boxes.front());
        FindingSink sink(starter_rules(), false, estimate.findings);
        request_findings(estimate, choices, sink);
        return find(estimate, "LOCATION_SPLIT") ? param(*find(estimate, "LOCATION_SPLIT"), "count")
                                                : std::string();
    };
    CHECK(split(1).empty());
    CHECK(split(3) == "3");
}

TEST_CASE("the limit of loads on together is a row") {
    Work work;
    RuleBook rules = starter_rules();
    for (FindingRow& row : rules.findings)
        if (row.code == "SIMULTANEITY") row.limit = Decimal{60, 0};
    const auto raised = [&](const std::string& percent) {
        const std::string line =
            R"({"signal": "DO", "count": 4, "on_together_percent": )" + percent + "}";
        return find(price_job(request_of(points(line)), demo_book(), rules, work),
                    "SIMULTANEITY") != nullptr;
    };
    CHECK(raised("59.9"));
    CHECK_FALSE(raised("60"));
}

TEST_CASE("findings speak the units of the job") {
    const std::string site = R"(, "site": {"ambient_c": [-10, 45], "altitude_m": 1524})";
    const Estimate metric = estimate_of(box(site));
    const Estimate inch =
        estimate_of(box_request(plain_points, site, R"(, "job": {"units": "inch"})"));
    // 45 °C is 113 °F, -10 °C is 14 °F, 1524 m is 5000 ft: exact by definition of the units.
    CHECK(param(*find(metric, "AMBIENT"), "ambient") == "45 °C");
    CHECK(param(*find(inch, "AMBIENT"), "ambient") == "113 °F");
    CHECK(param(*find(inch, "AMBIENT_LOW"), "ambient") == "14 °F");
    CHECK(param(*find(inch, "ALTITUDE"), "altitude") == "5000 ft");
    CHECK(param(*find(inch, "SITE_AS_TAKEN"), "ambient") == "14 to 113 °F");
    for (const Finding& finding : inch.findings)
        for (const auto& [name, value] : finding.params) {
            CAPTURE(finding.code, name, value);
            CHECK(value.find("°C") == std::string::npos);
            CHECK(value.find(" mm") == std::string::npos);
        }
}
