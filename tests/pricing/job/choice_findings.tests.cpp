#include <algorithm>
#include <catch2/catch.hpp>

#include "pricing/price_job.h"
#include "reports/estimate_json.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Estimate estimate_of(const std::string& choices) {
    Work work;
    return price_job(request_of(box_request(points_text({{"DI", 20}, {"AI_MA", 2}}),
                                            R"(, "choices": {)" + choices + "}")),
                     demo_book(), starter_rules(), work);
}

const Finding* finding(const Estimate& estimate, const std::string& code) {
    for (const Finding& each : estimate.findings)
        if (each.code == code) return &each;
    return nullptr;
}

std::string param(const Finding& finding, const std::string& name) {
    for (const auto& [key, value] : finding.params)
        if (key == name) return value;
    return {};
}

} // namespace

// Triggers: each is raised with its cause and not in the twin without it (findings table).
TEST_CASE("findings of what is asked come with their cause only") {
    const Estimate plain = estimate_of("");
    for (const char* code :
         {"REDUNDANCY", "UPS", "EXISTING_SPACE", "HEAT_NOT_JUDGED", "PLATE_NEEDED"})
        CHECK_FALSE(finding(plain, code));
    CHECK(finding(estimate_of(R"("backup_minutes": 5)"), "UPS"));
    const Estimate existing =
        estimate_of(R"("enclosure": {"existing_plate_mm": {"width": 900, "height": 1100}})");
    REQUIRE(finding(existing, "EXISTING_SPACE"));
    CHECK(param(*finding(existing, "EXISTING_SPACE"), "width") == "900 mm");
    CHECK(finding(existing, "HEAT_NOT_JUDGED"));
    CHECK_FALSE(finding(existing, "PLATE_NEEDED"));
    CHECK(finding(estimate_of(R"("enclosure": "by_client")"), "PLATE_NEEDED"));
}

TEST_CASE("redundancy states what its parts add") {
    const Estimate estimate = estimate_of(R"("redundant_supply": true)");
    const Finding* redundancy = finding(estimate, "REDUNDANCY");
    REQUIRE(redundancy);
    // the second of two supplies and the decoupling, at the net prices of the bill
    Money added;
    for (const BillLine& line : estimate.bill) {
        if (line.role == "supply" || line.role == "redundancy") added += *line.unit_net;
        if (line.role == "supply") CHECK(line.quantity == 2);
    }
    CHECK(param(*redundancy, "cost") == added.text(2));
    CHECK(estimate.boxes.front().supplies.front().arrangement == "one_plus_one");
}

TEST_CASE("without the box its temperatures are null, never 0") {
    const Estimate estimate = estimate_of(R"("enclosure": "plate_only")");
    REQUIRE(estimate.buildable);
    const std::string json = estimate_json(estimate, starter_rules(), "test");
    for (const char* member :
         {R"("mid_c": null)", R"("top_c": null)", R"("stage": null)",
          R"("second_method_top_c": null)", R"("air_c": null)", R"("required_a": null)",
          R"("temperature": null)", R"("depth_mm": null)", R"("protection": null)"})
        CHECK(json.find(member) != std::string::npos);
    CHECK(std::any_of(estimate.bill.begin(), estimate.bill.end(),
                      [](const BillLine& line) { return line.role == "plate"; }));
}
