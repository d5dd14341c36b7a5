// Surge arresters by the place and the circumstances: which places ask is common practice, which
// arrester fits which mains follows from its poles; the parts are invented.
#include <catch2/catch.hpp>

#include "pricing/panel/surge_facts.h"
#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

std::string site(const std::string& supply, const char* place = "outdoor_shade") {
    return R"(, "site": {"place": ")" + std::string(place) + R"(", "supply": )" + supply + "}";
}

/// Key of the arrester that the box takes; "none" where none fits, "" where none is asked.
std::string arrester(const std::string& more, const std::string& job = {},
                     const PriceBook& book = demo_book()) {
    const BidRequest request =
        request_of(box_request(R"({"signal": "DI", "count": 8})", more, job));
    const BoxFacts facts = box_facts(request, request.boxes[0], book, starter_rules());
    if (!facts.surge.row || facts.surge.by_hand) return "";
    return facts.surge.arrester ? facts.surge.arrester->key : "none";
}

const std::string american = R"(, "job": {"practice": "north_america"})";

} // namespace

TEST_CASE("the arrester protects every live conductor of the mains") {
    CHECK(arrester(site(R"({"volts": 230})", "indoor")).empty());
    CHECK(arrester(site(R"({"volts": 230})")) == "DA-1");
    CHECK(arrester(site(R"({"volts": 400, "phases": 3})")) == "DA-3");
    CHECK(arrester(site(R"({"volts": 400, "phases": 3, "neutral": false})")) == "DA-3L");
    CHECK(arrester(site(R"({"volts": 24, "hz": 0})")) == "DA-DC");
    CHECK(arrester(site(R"({"volts": 110, "hz": 0})")) == "none");
    CHECK(arrester(site(R"({"volts": 120, "hz": 60})"), american) == "DA-U1");
    CHECK(arrester(site(R"({"volts": 480, "phases": 3, "hz": 60})"), american) == "DA-U3");
    CHECK(arrester(site(R"({"volts": 230})") + R"(, "equipment": [{"part": "DA-1"}])").empty());
    CHECK(arrester(site(R"({"volts": 230})") + R"(, "choices": {"exclude": ["DA-1"]})") == "none");
    CHECK(arrester("", R"(, "circumstances": ["fed_from_outside"])") == "DA-1");
}

TEST_CASE("an arrester that states no mains is never taken") {
    Part part;
    part.kind = "device";
    Site mains;
    mains.volts = 230;
    CHECK_FALSE(protects_mains(part, mains));
    part.input_max_v = 253;
    CHECK_FALSE(protects_mains(part, mains));
    part.poles = 2;
    CHECK(protects_mains(part, mains));
    part.poles = 3;
    CHECK_FALSE(protects_mains(part, mains));
}

TEST_CASE("every feed has its arrester, and its breaker where the row says so") {
    const auto priced = [](const std::string& more, const std::string& job) {
        const PriceBook book = demo_book();
        Work work;
        return price_job(request_of(box_request(R"({"signal": "DI", "count": 8})", more, job)),
                         book, starter_rules(), work);
    };
    const auto pieces = [](const Estimate& estimate, const std::string& key) {
        std::int64_t sum = 0;
        for (const BillLine& line : estimate.bill)
            if (line.part == key) sum += line.quantity;
        return sum;
    };
    const auto said = [](const Estimate& estimate, const char* code) {
        std::string text;
        for (const Finding& finding : estimate.findings)
            if (finding.code == code)
                for (const auto& [name, value] : finding.params) text += name + "=" + value + " ";
        return text;
    };
    const Estimate two = priced(site(R"({"volts": 230, "feeds": 2})"), "");
    CHECK(pieces(two, "DA-1") == 2);
    CHECK(said(two, "SURGE").empty());
    CHECK_THAT(said(two, "SURGE_ADDED"), Catch::Contains("reason=outdoors part=DA-1"));
    const Estimate struck = priced("", R"(, "circumstances": ["lightning"])");
    CHECK(pieces(struck, "DA-1") == 1);
    CHECK(pieces(struck, "DB-B1-25") == 1); // the largest up to 25 A
    CHECK_THAT(said(struck, "SURGE_ADDED"), Catch::Contains("DB-B1-25 stands before it"));
    for (const BoxResult& box : struck.boxes)
        for (const PlacedDevice& device : box.layout.devices)
            if (device.part == "DA-1") CHECK(device.band == "mains");
    const Estimate without =
        priced(site(R"({"volts": 230})") + R"(, "choices": {"exclude": ["DA-1"]})", "");
    CHECK_FALSE(said(without, "SURGE").empty());
    CHECK(said(without, "SURGE_ADDED").empty());
}
