// Choices by hand on the demo price book, each with its twin. What a choice means is our own rule
// (pricing/panel/chosen_parts.h); the parts are invented.
#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>

#include "pricing/panel/chosen_parts.h"
#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

const std::string plain_points =
    R"({"signal": "DI", "count": 20}, {"signal": "DO", "count": 10}, {"signal": "AI_MA", "count": 3})";

std::string choices(const std::string& more) {
    return box_request(plain_points, R"(, "choices": {)" + more + "}");
}

Estimate estimate_of(const std::string& json, const PriceBook& book = demo_book()) {
    Work work;
    return price_job(request_of(json), book, starter_rules(), work);
}

const BillLine* line_of(const Estimate& estimate, const std::string& part) {
    for (const BillLine& line : estimate.bill)
        if (line.part == part) return &line;
    return nullptr;
}

std::int64_t pieces_of(const Estimate& estimate, const std::string& part) {
    const BillLine* line = line_of(estimate, part);
    return line ? line->quantity : 0;
}

const Finding* find(const Estimate& estimate, const std::string& code) {
    for (const Finding& finding : estimate.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

std::string limits_of(const Estimate& estimate) {
    const Finding* finding = find(estimate, "UNBUILDABLE");
    if (!finding) return "(built)";
    for (const auto& [name, value] : finding->params)
        if (name == "limits") return value;
    return {};
}

const BasisEntry* basis_of(const Estimate& estimate, const std::string& source) {
    for (const BasisEntry& entry : estimate.basis)
        if (entry.source.find(source) != std::string::npos) return &entry;
    return nullptr;
}

std::string keep(const std::string& part, int quantity = 1) {
    return choices(R"("keep": [{"part": ")" + part + R"(", "quantity": )" +
                   std::to_string(quantity) + "}]");
}

std::string replace(const std::string& part, const std::string& by) {
    return choices(R"("replace": [{"part": ")" + part + R"(", "by": ")" + by + R"("}])");
}

/// Parts of the book in the place of the one that was chosen: other keys with its job, the dearest
/// first, for they mostly fit.
std::vector<const Part*> rivals(const PriceBook& book, const std::string& key) {
    const std::string job = job_of(*book.find(key));
    std::vector<const Part*> found;
    for (const Part& part : book.parts())
        if (part.key != key && part.net() && part.practice != "north_america" &&
            job_of(part) == job)
            found.push_back(&part);
    std::stable_sort(found.begin(), found.end(),
                     [](const Part* a, const Part* b) { return *a->net() > *b->net(); });
    return found;
}

std::string enclosure_of(const Estimate& estimate) {
    return estimate.boxes.front().enclosures.front().part;
}

std::string supply_of(const Estimate& estimate) {
    return estimate.boxes.front().supplies.front().part;
}

} // namespace

TEST_CASE("modules that are kept stand in the panel in their number") {
    const PriceBook book = demo_book();
    const std::string points = plain_points + R"(, {"signal": "RTD", "count": 4})";
    const Estimate plain = estimate_of(box_request(points));
    int judged = 0;
    for (const ModuleResult& module : plain.boxes.front().modules) {
        if (module.role != "module") continue;
        const Estimate kept = estimate_of(box_request(
            points, R"(, "choices": {"keep": [{"part": ")" + module.part + R"(", "quantity": )" +
                        std::to_string(module.quantity + 1) + "}]}"));
        CAPTURE(module.part, limits_of(kept));
        REQUIRE(kept.buildable);
        CHECK(pieces_of(kept, module.part) >= module.quantity + 1);
        CHECK(kept.price->price >= plain.price->price);
        const BasisEntry* entry = basis_of(kept, "kept by hand");
        REQUIRE(entry);
        CHECK(entry->inputs.front().path == "/boxes/0/choices/keep/0/quantity");
        ++judged;
    }
    CHECK(judged >= 2);
    CHECK_FALSE(basis_of(plain, "kept by hand"));
}

TEST_CASE("a controller, supply or enclosure that is kept is the one taken") {
    const PriceBook book = demo_book();
    const Estimate plain = estimate_of(choices(""));
    int judged = 0;
    for (const std::string& own : {enclosure_of(plain), supply_of(plain)})
        for (const Part* other : rivals(book, own)) {
            const Estimate kept = estimate_of(keep(other->key));
            if (!kept.buildable) continue; // too small, or another mark
            CAPTURE(own, other->key);
            CHECK(pieces_of(kept, other->key) >= 1);
            CHECK(pieces_of(kept, own) == 0);
            if (++judged % 4 == 0) break;
        }
    CHECK(judged >= 6);
}

TEST_CASE("a part that is replaced gives way to the one named, and to no third") {
    const PriceBook book = demo_book();
    const std::string points = plain_points + R"(, {"signal": "RTD", "count": 4})";
    const Estimate plain = estimate_of(box_request(points));
    int judged = 0;
    for (const BillLine& line : plain.bill) {
        const Part* part = book.find(line.part);
        if (!part ||
            (part->kind != "module" && part->kind != "supply" && part->kind != "enclosure"))
            continue;
        for (const Part* by : rivals(book, line.part)) {
            const Estimate changed = estimate_of(
                box_request(points, R"(, "choices": {"replace": [{"part": ")" + line.part +
                                        R"(", "by": ")" + by->key + R"("}]})"));
            if (!changed.buildable) continue;
            CAPTURE(line.part, by->key);
            CHECK(pieces_of(changed, line.part) == 0);
            CHECK(pieces_of(changed, by->key) >= 1);
            const BasisEntry* entry = basis_of(changed, "in place of " + line.part + " by hand");
            REQUIRE(entry);
            CHECK(entry->value == std::to_string(pieces_of(changed, by->key)));
            ++judged;
            break;
        }
    }
    std::cout << "choices: " << judged << " parts replaced\n";
    CHECK(judged >= 4);
    CHECK_FALSE(basis_of(plain, "by hand"));
}

TEST_CASE("choices that cannot be followed say why") {
    struct Wrong {
        std::string request;
        const char* said;
    };
    const std::vector<Wrong> wrong{
        {keep("VC-20"), "choices, keep: VC-20 is not in the price book; nearest: VC-20"},
        {keep("VC-206"), "choices, keep: VC-206 serves no signal that is asked"},
        {keep("DP-100", 2), "DP-100 is of the kind supply, of which the engine counts the pieces"},
        {keep("PN-P07"), "PN-P07 is of the kind door, which the engine does not choose"},
        {choices(R"("keep": [{"part": "VC-202"}], "exclude": ["VC-202"])"),
         "choices, keep: VC-202 is excluded as well"},
        {choices(R"("keep": [{"part": "VC-202"}, {"part": "QS-403"}])"),
         "choices: parts of several platforms are kept"},
        {replace("NO-1", "VC-202"), "choices, replace NO-1 by VC-202: NO-1 is not in the price"},
        {replace("VC-202", "NO-1"), "NO-1 is not in the price book"},
        {replace("VC-202", "VC-202"), "a part cannot replace itself"},
        {replace("VC-202", "DP-100"), "DP-100 is of the kind supply, expected module"},
        {replace("VC-202", "QS-403"), "QS-403 belongs to the platform slice, expected compact"},
        {replace("VC-202", "VC-212"), "choices, replace VC-202 by VC-212: VC-212 serves no DI"},
        {replace("DP-100", "MW-100"), "MW-100 is not for the practice of the job"},
    };
    for (const Wrong& each : wrong) {
        const Estimate estimate = estimate_of(each.request);
        CAPTURE(each.request);
        CHECK_FALSE(estimate.buildable);
        CHECK_THAT(limits_of(estimate), Catch::Contains(each.said));
    }
}

TEST_CASE("preferred makers are taken where they make the part") {
    const PriceBook book = demo_book();
    const Estimate plain = estimate_of(choices(""));
    const std::string own = book.find(plain.boxes.front().modules.front().part)->maker;
    int judged = 0;
    for (const char* maker : {"Velmora", "Quillmarsh", "Orvendal", "Tessaroy"}) {
        const Estimate preferred =
            estimate_of(choices(R"("prefer_makers": [")" + std::string(maker) + R"("])"));
        CAPTURE(maker, limits_of(preferred));
        REQUIRE(preferred.buildable);
        CHECK_FALSE(find(preferred, "PREFERENCE_NOT_MET"));
        CHECK(find(preferred, "HAND_CHOICES"));
        for (const ModuleResult& module : preferred.boxes.front().modules)
            CHECK(book.find(module.part)->maker == maker);
        CHECK((maker == own) == (preferred.price->price == plain.price->price));
        ++judged;
    }
    CHECK(judged == 4);
}

TEST_CASE("a preference that builds nothing admits the other makers and says so") {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts)
        if (part.key == "DP-013") part.maker = "Smallworks"; // 1.3 A: too weak
    const PriceBook book(parts, 1);
    const std::string heavy = R"(, "equipment": [{"text": "Drive", "amps_24v": 9}])";
    const Estimate estimate = estimate_of(
        box_request(plain_points, heavy + R"(, "choices": {"prefer_makers": ["Smallworks"]})"),
        book);
    REQUIRE(estimate.buildable);
    REQUIRE(find(estimate, "PREFERENCE_NOT_MET"));
    CHECK_THAT(find(estimate, "PREFERENCE_NOT_MET")->params.back().second,
               Catch::Equals("Smallworks"));
    CHECK(supply_of(estimate) != "DP-013");
    const Estimate unknown = estimate_of(choices(R"("prefer_makers": ["Nobody"])"), book);
    CHECK(unknown.buildable);
    CHECK(find(unknown, "HAND_CHOICE_AGAINST_RULE"));
}

TEST_CASE("in stock only takes what the own store holds and names what is short") {
    const Estimate plain = estimate_of(choices(""));
    const std::string taken = plain.boxes.front().modules.back().part;
    const PriceBook own = demo_book();
    const Estimate from_store = estimate_of(choices(R"("in_stock_only": true)"));
    REQUIRE(from_store.buildable);
    for (const ModuleResult& module : from_store.boxes.front().modules)
        CHECK(own.find(module.part)->stock.value_or(0) > 0);
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts) part.stock = 0;
    const Estimate empty = estimate_of(choices(R"("in_stock_only": true)"), PriceBook(parts, 1));
    CHECK_FALSE(empty.buildable);
    CHECK_THAT(limits_of(empty), Catch::Contains("in stock"));
    for (Part& part : parts) part.stock = part.key == taken ? 0 : 10000;
    const Estimate stocked = estimate_of(choices(R"("in_stock_only": true)"), PriceBook(parts, 1));
    REQUIRE(stocked.buildable);
    CHECK(pieces_of(stocked, taken) == 0);
    CHECK_FALSE(find(stocked, "STOCK_SHORT"));
    for (Part& part : parts) part.stock = 1;
    const Estimate low = estimate_of(choices(R"("in_stock_only": true)"), PriceBook(parts, 1));
    REQUIRE(low.buildable);
    REQUIRE(find(low, "STOCK_SHORT"));
    CHECK_FALSE(find(estimate_of(choices(""), PriceBook(parts, 1)), "STOCK_SHORT"));
}

namespace {

/// What the finding says of parts that do not state the approval.
std::string unstated(const Estimate& estimate) {
    for (const auto& [name, value] : find(estimate, "APPROVAL")->params)
        if (name == "unstated") return value;
    return {};
}

} // namespace

// Rows of approval_parts are ours, from memory of UL 508A supplement SA.
TEST_CASE("parts that do not state an approval asked give way to those that do") {
    const auto asked = [](const std::string& approvals, const std::string& more = {}) {
        return box_request(plain_points,
                           R"(, "site": {"supply": {"volts": 480, "phases": 3, "hz": 60}, )"
                           R"("approvals": [)" +
                               approvals + "]}" + more,
                           R"(, "job": {"practice": "north_america"})");
    };
    const PriceBook book = demo_book();
    const auto taken = [&](const Estimate& estimate, const std::string& kind) {
        const Part* found = nullptr;
        for (const BillLine& line : estimate.bill)
            if (const Part* part = book.find(line.part); part && part->kind == kind) found = part;
        REQUIRE(found);
        return found;
    };
    const Estimate plain = estimate_of(asked("")), listed = estimate_of(asked(R"("UL 508A")"));
    REQUIRE(plain.buildable);
    REQUIRE(listed.buildable);
    CHECK_FALSE(taken(plain, "incoming")->states_approval("UL 508A"));
    CHECK(taken(listed, "incoming")->states_approval("UL 508A"));
    CHECK(taken(listed, "main_switch")->states_approval("UL 508A"));
    // A row that passes nothing over, and one that is asked of no part.
    CHECK(taken(estimate_of(asked(R"("NFPA 79")")), "incoming")->key ==
          taken(plain, "incoming")->key);
    // By name a part stands whatever it states; the finding says so.
    const std::string key = taken(plain, "incoming")->key;
    const Estimate kept = estimate_of(
        asked(R"("UL 508A")", R"(, "choices": {"keep": [{"part": ")" + key + R"("}]})"));
    REQUIRE(kept.buildable);
    CHECK(taken(kept, "incoming")->key == key);
    CHECK_THAT(unstated(kept),
               Catch::Contains("These parts do not state it: ") && Catch::Contains(key));
    CHECK_THAT(unstated(estimate_of(asked(R"("NFPA 79")"))), Catch::Contains("No rule asks"));
}

TEST_CASE("where no part of a job states the approval, all stay open") {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts)
        if (part.kind == "incoming") part.approvals.clear();
    const PriceBook book(parts, 1);
    const BidRequest request =
        request_of(box_request(plain_points, R"(, "site": {"approvals": ["UL 508A"]})",
                               R"(, "job": {"practice": "north_america"})"));
    const ChosenParts chosen = chosen_parts(book, request.boxes[0], request, starter_rules(), true);
    CHECK(chosen.book.of_kind("incoming").size() == book.of_kind("incoming").size());
    CHECK(chosen.book.of_kind("wire").size() < book.of_kind("wire").size());
}
