#include "pricing/panel/work_counts.h"

#include <catch2/catch.hpp>
#include <numeric>
#include <utility>

#include "pricing/panel/choose_panel.h"
#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

const std::string points = R"({"signal": "DI", "count": 8}, {"signal": "DO", "count": 4})";

Estimate estimate_of(const std::string& json, const std::vector<Part>& parts = demo_parts()) {
    Work work;
    const PriceBook book(parts, 1);
    return price_job(request_of(json), book, starter_rules(), work);
}

double hours_of(const Estimate& estimate, const std::string& activity) {
    double hours = 0;
    for (const LabourLine& line : estimate.labour)
        if (line.activity == activity) hours += line.hours.number();
    return hours;
}

std::string box(const std::string& more) { return box_request(points, more); }
std::string scope(const std::string& more) {
    return box_request(points, "", R"(, "scope": {)" + more + "}");
}

/// Hours that the second request has more than the first.
double more_hours(const std::string& activity, const std::string& without,
                  const std::string& with) {
    const Estimate before = estimate_of(without), after = estimate_of(with);
    REQUIRE(before.buildable);
    REQUIRE(after.buildable);
    return hours_of(after, activity) - hours_of(before, activity);
}

std::vector<Part> with_enclosures(double minutes, double factor) {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts)
        if (part.kind == "enclosure") {
            if (minutes > 0) part.prep_minutes = minutes;
            part.cutout_factor = factor;
        }
    return parts;
}

} // namespace

// Minutes of the likely column of the hours rows; trade-practice 2.1, 2.4 and common practice.
TEST_CASE("days, languages and safety count in the hours table's own minutes") {
    const std::string plain = box("");
    CHECK(more_hours("witness", plain, scope(R"("witness_days": 1.5)")) == Approx(1.5 * 16));
    CHECK(more_hours("site_days", plain, scope(R"("site_days": 2)")) == Approx(20));
    CHECK(more_hours("travel", plain, scope(R"("site_days": 2)")) == Approx(4));
    CHECK(more_hours("safety", plain,
                     box_request(points + R"(, {"signal": "DI_SAFE", "count": 2})")) ==
          Approx(24 + 2 * 1.5));
    // commissioning by days where days are given: 12 points × 20 min go
    CHECK(more_hours("commissioning", scope(R"("commissioning": "included", "site_days": 1)"),
                     scope(R"("commissioning": "included")")) == Approx(4));
    const Estimate one = estimate_of(plain);
    const Estimate three = estimate_of(scope(R"("languages": 3)"));
    double sheets = 0;
    for (const BasisEntry& entry : three.basis)
        for (const BasisInput& input : entry.inputs)
            if (input.path == "hours/language_sheet")
                sheets = hours_of(three, "documents") - hours_of(one, "documents");
    CHECK(sheets > 1); // two further languages of at least six sheets at 6 min
}

TEST_CASE("minutes of an enclosure stand in for the row, its factor scales every opening") {
    const Estimate plain = estimate_of(box(""));
    const double row = hours_of(plain, "enclosure_preparation");
    // wall box: 90 min by the row
    const Estimate stated = estimate_of(box(""), with_enclosures(30, 1));
    CHECK(row - hours_of(stated, "enclosure_preparation") == Approx(1.0));
    const Estimate hard = estimate_of(box(""), with_enclosures(0, 2.5));
    // 12 points on 3 cables: three gland openings of 6 min, one main switch opening of 10 min
    CHECK(hours_of(hard, "enclosure_preparation") - row == Approx(1.5 * 28 / 60).margin(0.0006));
    CHECK(hard.price->labour > plain.price->labour);
}

TEST_CASE("door parts are let in and mounted by their function") {
    const auto door = [](const char* part) {
        return box(std::string(R"(, "equipment": [{"part": ")") + part +
                   R"(", "quantity": 2, "where": "door"}])");
    };
    const std::string plain = box("");
    // a push button: round opening 10 min, mounting 12 min; a panel: 40 min and 30 min
    CHECK(more_hours("enclosure_preparation", plain, door("AL-BR")) ==
          Approx(2.0 * 10 / 60).margin(0.0006));
    CHECK(more_hours("mounting", plain, door("AL-BR")) == Approx(2.0 * 12 / 60).margin(0.06));
    CHECK(more_hours("enclosure_preparation", plain, door("AL-P07M")) ==
          Approx(2.0 * 40 / 60).margin(0.0006));
    CHECK(more_hours("enclosure_preparation", plain, door("AL-DOC")) == Approx(0).margin(1e-9));
}

TEST_CASE("power wires count above the section of the row only") {
    const BidRequest request = request_of(box(""));
    Work work;
    const PriceBook book = demo_book();
    const PanelChoice choice =
        choose_panel(request, request.boxes.front(), book, starter_rules(), work);
    REQUIRE(choice.design);
    int judged = 0;
    for (const Conductor& conductor : starter_rules().conductors) {
        PanelDesign design = *choice.design;
        design.incoming.conductor = &conductor;
        count_power_wires(design, *choice.search);
        CAPTURE(conductor.key);
        // one phase and neutral, each to and from the device, and the protective conductor
        CHECK(design.counts.power_wires_large == (conductor.order.number() > 6 ? 5 : 0));
        ++judged;
        Box twice = *choice.search->facts.box; // each of two feeds brings its own
        twice.site.feeds = 2;
        SearchFacts& search = *choice.search;
        const Box* once = std::exchange(search.facts.box, &twice);
        count_power_wires(design, search);
        CHECK(design.counts.power_wires_large == (conductor.order.number() > 6 ? 10 : 0));
        search.facts.box = once;
    }
    CHECK(judged >= 20);
}

TEST_CASE("bounds know the easiest openings") {
    Housing housing;
    std::vector<Part> parts(4);
    parts[0].mounting = parts[1].mounting = "wall";
    parts[1].prep_minutes = 20;
    parts[2].mounting = "floor";
    parts[2].cutout_factor = 0.5;
    parts[3].mounting = "wall";
    for (const Part& part : parts) housing.candidates.emplace_back(part);
    CHECK(least_cutout_hundredths(housing) == 50);
    CHECK(least_cutout_hundredths(Housing{}) == 100);
}
