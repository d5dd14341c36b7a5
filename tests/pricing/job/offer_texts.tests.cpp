// Which sentence an offer holds by what the request asks. The sentences are own wording of what
// offers of the trade hold (trade-practice 1.2, electrical-facts 7).
#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>

#include "pricing/job/offer_texts.h"
#include "pricing/price_job.h"
#include "reports/wording.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Estimate estimate_of(const std::string& json) {
    const PriceBook book = demo_book();
    Work work;
    return price_job(request_of(json), book, starter_rules(), work);
}

const OfferText* find(const Estimate& estimate, const std::string& row) {
    for (const OfferText& text : estimate.offer_texts)
        if (text.rule == "texts/" + row) return &text;
    return nullptr;
}

std::string text_of(const Estimate& estimate, const std::string& row) {
    const OfferText* text = find(estimate, row);
    return text ? text->text : "(none)";
}

const std::string plain_points = R"({"signal": "DI", "count": 8}, {"signal": "DO", "count": 4})";

std::string box(const std::string& more) { return box_request(plain_points, more); }
std::string job(const std::string& more) { return box_request(plain_points, "", more); }
std::string points(const std::string& list) { return box_request(list); }
std::string scope(const std::string& more) { return job(R"(, "scope": {)" + more + "}"); }
std::string circumstance(const std::string& key) {
    return job(R"(, "circumstances": [")" + key + R"("])");
}

struct Pair {
    std::string row, with, without;
};

std::vector<Pair> scope_pairs() {
    const std::string plain = job("");
    std::vector<Pair> pairs{
        {"witness_included", scope(R"("witness_days": 1.5)"), plain},
        {"witness_excluded", plain, scope(R"("witness_days": 1)")},
        {"witness_excluded", plain, scope(R"("works_test": "excluded")")},
        {"commissioning_days", scope(R"("commissioning": "included", "site_days": 2)"), plain},
        {"commissioning_points", scope(R"("commissioning": "included")"),
         scope(R"("commissioning": "included", "site_days": 2)")},
        {"commissioning_excluded", plain, scope(R"("commissioning": "included")")},
        {"commissioning_not_stated", scope(R"("commissioning": "not_stated")"), plain},
        {"commissioning_option", scope(R"("commissioning": "option")"), plain},
        {"site_days_included", scope(R"("site_days": 2)"), plain},
        {"site_days_excluded", plain, scope(R"("commissioning": "included")")},
        {"documents_basic", plain, scope(R"("documents": "full")")},
        {"documents_full", scope(R"("documents": "full")"), plain},
        {"documents_none", scope(R"("documents": "none")"), plain},
        {"languages_one", plain, scope(R"("languages": 2)")},
        {"languages_several", scope(R"("languages": 2)"), plain},
        {"comments", plain, scope(R"("drawings": "excluded")")},
        {"licences", plain, scope(R"("software": "excluded")")},
    };
    for (const char* key : {"drawings", "software", "works_test", "packing", "transport"})
        for (const char* word : {"included", "excluded", "option", "not_stated"}) {
            const char* other = std::string(word) == "included" ? "excluded" : "included";
            const auto asked = [&](const char* which) {
                return scope("\"" + std::string(key) + R"(": ")" + which + "\"");
            };
            pairs.push_back({std::string(key) + "_" + word, asked(word), asked(other)});
        }
    return pairs;
}

std::vector<Pair> job_pairs() {
    const std::string plain = job("");
    const auto spare = [](const char* kind, int percent) {
        return job(R"(, "spare": {"percent": )" + std::to_string(percent) + R"(, "kind": ")" +
                   kind + R"("})");
    };
    const std::string no_spare = job(R"(, "spare": {"percent": 0})");
    return {
        {"spare_unstated", plain, no_spare},
        {"spare_unstated", plain, spare("wired", 20)},
        {"spare_wired", spare("wired", 20), plain},
        {"spare_installed", spare("installed", 20), plain},
        {"spare_slot", spare("slot", 20), plain},
        {"spare_none_wired", no_spare, plain},
        {"spare_none_bare_installed", spare("installed", 0), no_spare},
        {"spare_none_bare_slot", spare("slot", 0), no_spare},
        {"tax_none", plain, job(R"(, "commercial": {"tax_percent": 0})")},
        {"tax_stated", job(R"(, "commercial": {"tax_percent": 19})"), plain},
        {"duty_excluded", plain, job(R"(, "commercial": {"delivery_term": "DDP"})")},
        {"duty_included", job(R"(, "commercial": {"delivery_term": "DDP"})"), plain},
        {"area_safe", plain, circumstance("hazardous_area")},
        {"area_hazardous", circumstance("hazardous_area"), plain},
        {"foreign_currency", circumstance("foreign_currency"), plain},
        {"moving_scope", circumstance("scope_moving"), plain},
        {"budget", job(R"(, "job": {"estimate_class": 4})"), plain},
        {"standards_iec", plain, job(R"(, "job": {"practice": "north_america"})")},
        {"standards_north_america", job(R"(, "job": {"practice": "north_america"})"), plain},
        {"old_prices", job(R"(, "job": {"date": "2027-12-01"})"), plain},
    };
}

std::vector<Pair> box_pairs() {
    const std::string plain = job("");
    const auto enclosure = [](const std::string& choice) {
        return box(R"(, "choices": {"enclosure": )" + choice + "}");
    };
    const std::string by_client = enclosure(R"("by_client")");
    return {
        {"safety_none", plain, points(R"({"signal": "DI_SAFE", "count": 4})")},
        {"safety_devices", points(R"({"signal": "DI_SAFE", "count": 4})"), plain},
        {"safety_assessment", points(R"({"signal": "DI_SAFE", "count": 4})"), plain},
        {"listing_none", plain, box(R"(, "site": {"approvals": ["IEC 61439"]})")},
        {"listing_asked", box(R"(, "site": {"approvals": ["IEC 61439"]})"), plain},
        {"room_asked", plain, box(R"(, "choices": {"room_percent": 0})")},
        {"room_not_asked", box(R"(, "choices": {"room_percent": 0})"), plain},
        {"field_loads", plain, points(R"({"signal": "DI", "count": 4, "amps": 0})")},
        {"rating_stated", box(R"(, "site": {"fault_current_ka": 5})"), plain},
        {"rating_not_stated", plain, box(R"(, "site": {"fault_current_ka": 5})")},
        {"network_security", box(R"(, "work": {"network_devices": 1})"), plain},
        {"enclosure_by_client", by_client, plain},
        {"enclosure_plate_only", enclosure(R"("plate_only")"), plain},
        {"enclosure_existing",
         enclosure(R"({"existing_plate_mm": {"width": 750, "height": 1150}})"), plain},
        {"openings", plain, by_client},
        {"climate", plain, by_client},
        {"battery", box(R"(, "choices": {"backup_minutes": 10})"), plain},
        {"client_parts",
         box(R"(, "equipment": [{"text": "Modem by client", "quantity": 1, "price": "0.00"}])"),
         box(R"(, "equipment": [{"text": "Modem", "quantity": 1, "price": "90.00"}])")},
    };
}

} // namespace

TEST_CASE("every sentence of the offer stands with its condition and not without it") {
    int judged = 0;
    for (const auto& pairs : {scope_pairs(), job_pairs(), box_pairs()})
        for (const Pair& pair : pairs) {
            CAPTURE(pair.row, pair.with, pair.without);
            CHECK(find(estimate_of(pair.with), pair.row));
            CHECK_FALSE(find(estimate_of(pair.without), pair.row));
            ++judged;
        }
    std::cout << "offer texts: " << judged << " pairs judged\n";
    CHECK(judged >= 70);
}

TEST_CASE("sentences hold the figures of the job") {
    const Estimate estimate = estimate_of(
        box_request(plain_points,
                    R"(, "site": {"ambient_c": [-5, 38.5], "altitude_m": 305, "place": "indoor",
                        "fault_current_ka": 5})",
                    R"(, "job": {"enquiry": "E-7", "date": "2026-11-25", "valid_days": 45},
                        "scope": {"witness_days": 1.5},
                        "commercial": {"delivery_term": "DAP", "tax_percent": 19})"));
    CHECK_THAT(text_of(estimate, "panels"),
               Catch::StartsWith("This offer covers 1 control panel(s) for 12 points"));
    CHECK(text_of(estimate, "basis") ==
          "It rests on enquiry E-7. Papers that came later are not considered.");
    CHECK_THAT(text_of(estimate, "witness_included"), Catch::StartsWith("1.5 day(s)"));
    CHECK_THAT(text_of(estimate, "climate"),
               Catch::Contains("of -5 to 38.5 °C, a height of up to 305 m and the place indoor"));
    CHECK_THAT(text_of(estimate, "rating_stated"),
               Catch::Contains(" kA, against 5.0 kA stated by the buyer."));
    // 25 November + 45 days: 9 January.
    CHECK(text_of(estimate, "validity") == "Prices are in EUR and valid until 2027-01-09.");
    CHECK_THAT(text_of(estimate, "tax_stated"), Catch::Contains("19 percent"));
    CHECK_THAT(text_of(estimate, "delivery_known"), Catch::StartsWith("Delivery DAP, "));
    CHECK_THAT(text_of(estimate, "warranty"), Catch::StartsWith("Warranty of 12 months"));
    CHECK_THAT(text_of(estimate, "openings"),
               Catch::Contains(estimate.boxes.front().enclosures.front().protection));
}

TEST_CASE("lists that points came from are the basis of the offer") {
    const Estimate estimate = estimate_of(points(
        R"({"signal": "DI", "count": 2, "origin": {"file": "pump list.csv", "sheet": "A", "row": 2}},
           {"signal": "DO", "count": 1, "origin": {"file": "pump list.csv", "sheet": "A", "row": 9}},
           {"signal": "AI_MA", "count": 1, "origin": {"file": "levels.ods", "sheet": "B", "row": 3}})"));
    CHECK(text_of(estimate, "basis") ==
          "It rests on pump list.csv, levels.ods. Papers that came later are not considered.");
}

TEST_CASE("no sentence is left with a gap, and each names its row") {
    int judged = 0;
    for (const auto& pairs : {scope_pairs(), job_pairs(), box_pairs()})
        for (const Pair& pair : pairs) {
            const Estimate estimate = estimate_of(pair.with);
            for (const OfferText& text : estimate.offer_texts) {
                CAPTURE(text.rule, text.text);
                CHECK(text.text.find_first_of("{}") == std::string::npos);
                CHECK(text.text.find("not stated") == std::string::npos);
                CHECK(text.rule.starts_with("texts/"));
                ++judged;
            }
        }
    CHECK(judged > 2000);
}

TEST_CASE("every fact and value of the sentences is answered by a job") {
    const Estimate estimate = estimate_of(job(""));
    const PriceBook book = demo_book();
    const OfferView view{estimate, estimate.request.boxes.front(), estimate.boxes.front(), book,
                         starter_rules()};
    for (const OfferFact& fact : offer_facts()) {
        CAPTURE(fact.key);
        CHECK_FALSE(offer_fact(view, fact.key).empty());
    }
    for (const OfferValue& value : offer_values()) {
        CAPTURE(value.name, value.meaning);
        CHECK_FALSE(offer_value(view, std::string(value.name)).empty());
    }
    CHECK(offer_value(view, "no such value") == "not stated");
    CHECK(offer_fact(view, "no such fact").empty());
}

TEST_CASE("a caution that a sentence says stands once on the offer") {
    const Estimate estimate = estimate_of(job(""));
    for (const Finding* finding : further_cautions(estimate, starter_rules()))
        CHECK(finding->code != "LOCKOUT");
    const auto has = [&](const Estimate& of, const char* code) {
        const auto cautions = further_cautions(of, starter_rules());
        return std::any_of(cautions.begin(), cautions.end(),
                           [&](const Finding* finding) { return finding->code == code; });
    };
    CHECK(has(estimate, "FIELD_POWER"));
    Estimate silent = estimate;
    silent.offer_texts.clear();
    CHECK(has(silent, "LOCKOUT"));
    const Estimate unbuilt = estimate_of(box(R"(, "site": {"max_mm": {"width": 100}})"));
    CHECK(unbuilt.offer_texts.empty());
}
