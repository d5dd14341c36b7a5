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
            {"text": "Drive", "quantity": 1, "where": "plate", "width_mm": 80, "height_mm": 120,
             "depth_mm": 100, "watts": 10, "price": "200.00"}])";
    static const std::vector<std::string> all{
        box_request(points, work + door,
                    R"(, "scope": {"commissioning": "included", "transport": "included"})"),
        box_request(points, R"(, "choices": {"enclosure": {"part": "BE-F1220"}})"),
        box_request(points, R"(, "assemblies": [{"name": "motor, direct on line"}])"),
        box_request(points, R"(, "site": {"approvals": ["UL 508A"]})"),
        box_request(points, R"(, "site": {"supply": {"volts": 120}, "protection": "Type 12"})",
                    R"(, "job": {"practice": "north_america"})")};
    return all;
}

} // namespace

TEST_CASE("every driver of the starter hours counts something in some box") {
    std::map<std::string, int> counted;
    for (const LabourNorm& norm : starter_rules().labour) counted[norm.driver] += 0;
    int built = 0;
    for (const std::string& json : jobs()) {
        const BidRequest request = request_of(json);
        Work work;
        const PriceBook book = demo_book(); // the design points into it
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
        // No field of a request tells a push button from a panel: all in the door count as panels.
        if (driver != "door device") CHECK(count > 0);
        ++drivers;
    }
    std::cout << "drivers: " << drivers << " of the hours table, " << built << " boxes\n";
    CHECK(drivers >= 35);
}
