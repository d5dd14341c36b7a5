#include <catch2/catch.hpp>
#include <iostream>
#include <map>

#include "pricing/panel/choose_panel.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// Jobs that between them have every kind of work that the hours table counts.
const std::vector<std::string>& jobs() {
    const std::string points =
        points_text({{"DI", 8}, {"DO", 4}, {"AI_MA", 4}, {"RTD", 2}, {"CNT", 1}, {"DI_SAFE", 2}});
    const std::string work =
        R"(, "work": {"screens": 2, "network_devices": 1, "loops": 1, "soft_points": 5})";
    const std::string door =
        R"(, "equipment": [{"part": "PN-S08", "quantity": 1}, {"part": "PN-P07", "quantity": 1},
            {"part": "AL-BR", "quantity": 2},
            {"text": "Valve terminal of the client", "quantity": 1, "where": "rail", "watts": 1,
             "width_mm": 50, "height_mm": 90, "depth_mm": 60, "price": "0.00"},
            {"text": "Drive", "quantity": 1, "where": "plate", "width_mm": 80, "height_mm": 120,
             "depth_mm": 100, "watts": 10, "price": "200.00"}])";
    static const std::vector<std::string> all{
        box_request(points, work + door,
                    R"(, "scope": {"commissioning": "included", "transport": "included",
                "witness_days": 0.5, "site_days": 2, "languages": 2})"),
        box_request(points, R"(, "quantity": 2, "choices": {"enclosure": {"part": "BE-F1220"}})"),
        box_request(points_text({{"DI", 220}}),
                    R"(, "choices": {"enclosure": {"part": "FB-0618"}})"),
        box_request(points, R"(, "assemblies": [{"name": "motor, direct on line"}])"),
        box_request(points, R"(, "site": {"approvals": ["UL 508A"]})"),
        box_request(points, R"(, "site": {"supply": {"volts": 120}, "protection": "Type 12"})",
                    R"(, "job": {"practice": "north_america"})")};
    return all;
}

/// Enclosures state their minutes in the last job, as no demo part does.
PriceBook book_of(std::size_t job) {
    std::vector<Part> parts = demo_parts();
    if (job + 1 == jobs().size())
        for (Part& part : parts)
            if (part.kind == "enclosure") part.prep_minutes = 30;
    return PriceBook(std::move(parts), 1);
}

} // namespace

TEST_CASE("every driver of the starter hours counts something in some box") {
    std::map<std::string, int> counted;
    for (const LabourNorm& norm : starter_rules().labour) counted[norm.driver] += 0;
    int built = 0;
    for (std::size_t job = 0; job < jobs().size(); ++job) {
        const BidRequest request = request_of(jobs()[job]);
        Work work;
        const PriceBook book = book_of(job); // the design points into it
        const PanelChoice choice =
            choose_panel(request, request.boxes.front(), book, starter_rules(), work);
        for (const std::string& limit : choice.limits) UNSCOPED_INFO(limit);
        CHECK(choice.design);
        if (!choice.design) continue;
        ++built;
        for (const auto& entry : choice.search->plan.counted)
            counted[entry.norm->driver] +=
                entry.driver.count(choice.design->counts, entry.driver.of);
        for (const auto* shares : {&choice.search->plan.shares, &choice.search->plan.overall})
            for (const auto& entry : *shares) ++counted[entry.norm->driver];
    }
    int drivers = 0;
    for (const auto& [driver, count] : counted) {
        CAPTURE(driver);
        // No 24 V job of the demo book needs an incoming conductor above 6 mm².
        if (driver != "power wire large") CHECK(count > 0);
        ++drivers;
    }
    std::cout << "drivers: " << drivers << " of the hours table, " << built << " boxes\n";
    CHECK(drivers >= 44);
}
