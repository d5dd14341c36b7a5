#include "pricing/price_job.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <charconv>
#include <cmath>
#include <iostream>
#include <map>
#include <set>

#include "pricing/panel/choose_panel.h"
#include "reports/estimate_json.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

std::string mixed_request(int factor, const std::string& more = {}) {
    return box_request(points_text({{"DI", 12 * factor},
                                    {"DO", 6 * factor},
                                    {"AI_MA", 3 * factor},
                                    {"AO_MA", factor},
                                    {"RTD", factor}}),
                       R"(, "site": {"ambient_c": [0, 40]})" + more,
                       R"(, "spare": {"percent": {"default": 20}})");
}

Estimate estimate_with(const PriceBook& book, const std::string& request) {
    Work work;
    return price_job(request_of(request), book, starter_rules(), work);
}

std::string json_of(const Estimate& estimate) {
    return estimate_json(estimate, starter_rules(), "test");
}

/// Unrounded direct cost of the cheapest panel; a very great cost where nothing builds it.
std::int64_t direct_with(const PriceBook& book, const std::string& json) {
    const BidRequest request = request_of(json);
    Work work;
    const PanelChoice choice =
        choose_panel(request, request.boxes.front(), book, starter_rules(), work);
    if (!choice.design) return INT64_MAX;
    CHECK(choice.proven);
    return choice.design->direct_cost;
}

/// Half a step of the last decimal of a printed number.
double half_step(const std::string& text) {
    const auto point = text.find('.');
    const auto places = point == std::string::npos ? 0 : text.size() - point - 1;
    return 0.5 * std::pow(10.0, -static_cast<double>(places)) + 1e-9;
}

} // namespace

TEST_CASE("the same input gives the same bytes, whatever the order of the parts") {
    const std::string json = mixed_request(2);
    const std::string first = json_of(estimate_with(demo_book(), json));
    CHECK(json_of(estimate_with(demo_book(), json)) == first);
    std::vector<Part> parts = demo_parts();
    Draws draws(67);
    for (int i = 0; i < 3; ++i) {
        for (std::size_t k = parts.size(); k > 1; --k)
            std::swap(parts[k - 1],
                      parts[static_cast<std::size_t>(draws.between(0, static_cast<int>(k) - 1))]);
        CHECK(json_of(estimate_with(PriceBook(parts, 1), json)) == first);
    }
    CHECK(first.size() > 10000);
}

TEST_CASE("a stop asked before the start leaves nothing") {
    std::stop_source source;
    source.request_stop();
    Work work;
    work.stop = source.get_token();
    CHECK_THROWS_AS(price_job(request_of(mixed_request(1)), demo_book(), starter_rules(), work),
                    Stopped);
}

TEST_CASE("every value of the basis is the printed figure before printing") {
    int judged = 0, texts = 0;
    for (const int factor : {1, 2, 4}) {
        const Estimate estimate = estimate_with(demo_book(), mixed_request(factor));
        const Node tree = parse_json("estimate", json_of(estimate)).root;
        for (const BasisEntry& entry : estimate.basis) {
            CAPTURE(entry.figure, entry.value);
            const Node* printed = at_pointer(tree, entry.figure);
            REQUIRE(printed);
            double exact = 0;
            const char* end = entry.value.data() + entry.value.size();
            const auto read = std::from_chars(entry.value.data(), end, exact);
            if (read.ec != std::errc{} || read.ptr != end) {
                CHECK(printed->text == entry.value);
                ++texts;
                continue;
            }
            const auto shown = parse_decimal(printed->text);
            REQUIRE(shown);
            CHECK(std::abs(shown->number() - exact) <= half_step(printed->text));
            ++judged;
        }
    }
    std::cout << "basis: " << judged << " numbers and " << texts << " texts judged\n";
    CHECK(judged >= 150);
}

TEST_CASE("less to choose from is never cheaper") {
    int judged = 0;
    for (const int factor : {1, 2, 3}) {
        const BidRequest request = request_of(mixed_request(factor));
        const PriceBook book = demo_book(); // the design points into it
        Work work;
        const PanelChoice choice =
            choose_panel(request, request.boxes.front(), book, starter_rules(), work);
        REQUIRE(choice.design);
        const PanelDesign& design = *choice.design;
        const std::string limit = number_text(*design.enclosure->height_mm - 1);
        for (const std::string& more :
             {R"(, "choices": {"exclude": [")" + design.enclosure->key + R"("]})",
              R"(, "choices": {"exclude": [")" + design.supply.part->key + R"("]})",
              R"(, "choices": {"exclude": [")" + design.leader->key + R"("]})"}) {
            CHECK(direct_with(demo_book(), mixed_request(factor, more)) >= design.direct_cost);
            ++judged;
        }
        const std::string sized = R"(, "site": {"ambient_c": [0, 40], "max_mm": {"height": )";
        std::string small = mixed_request(factor);
        const std::string plain = R"(, "site": {"ambient_c": [0, 40])";
        small.replace(small.find(plain), plain.size(), sized + limit + "}");
        CHECK(direct_with(demo_book(), small) >= design.direct_cost);
        ++judged;
    }
    CHECK(judged == 12);
}

TEST_CASE("one more part type never makes the panel dearer") {
    // A module wider than all others widens the band's allowance, so none such is taken away.
    const std::string json = mixed_request(1);
    const std::int64_t whole = direct_with(demo_book(), json);
    std::set<std::string> taken;
    for (const BillLine& line : estimate_with(demo_book(), json).bill) taken.insert(line.part);
    int judged = 0, needed = 0;
    for (std::size_t i = 0; i < demo_parts().size(); ++i) {
        const Part& part = demo_parts()[i];
        const bool chosen_freely = part.kind == "module" || part.kind == "supply" ||
                                   part.kind == "enclosure" || part.kind == "controller";
        if (i % 4 != 0 && !taken.contains(part.key)) continue; // every fourth, and what is taken
        if (!chosen_freely || part.key == "DP-203" || part.key == "DP-200") continue;
        std::vector<Part> fewer = demo_parts();
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        const std::int64_t without = direct_with(PriceBook(fewer, 1), json);
        CAPTURE(part.key);
        CHECK(without >= whole);
        needed += without > whole ? 1 : 0;
        ++judged;
    }
    std::cout << "part types: " << judged << " taken away, " << needed << " of them missed\n";
    CHECK(judged >= 50);
    CHECK(needed >= 4);
}

TEST_CASE("more points are never cheaper") {
    int judged = 0;
    std::vector<std::pair<std::string, int>> points{
        {"DI", 5}, {"DO", 3}, {"AI_MA", 1}, {"RTD", 1}, {"AO_MA", 1}};
    std::int64_t before = direct_with(demo_book(), box_request(points_text(points)));
    Draws draws(71);
    for (int i = 0; i < 24; ++i, ++judged) {
        const auto line = static_cast<std::size_t>(draws.between(0, 4));
        points[line].second += draws.between(1, 4);
        const std::int64_t after = direct_with(demo_book(), box_request(points_text(points)));
        CAPTURE(i, line, points[line].second);
        CHECK(after >= before);
        before = after;
    }
    CHECK(judged == 24);
}

TEST_CASE("what nothing builds has no price and names what binds") {
    const Estimate estimate = estimate_with(
        demo_book(), box_request(points_text({{"DI", 20}}),
                                 R"(, "site": {"ambient_c": [0, 40], "max_mm": {"width": 100}})"));
    CHECK_FALSE(estimate.buildable);
    CHECK_FALSE(estimate.price);
    CHECK(estimate.bill.empty());
    REQUIRE_FALSE(estimate.findings.empty());
    CHECK(estimate.findings.front().code == "UNBUILDABLE");
}

TEST_CASE("the layout of a chosen panel stays on its rails and within its rows") {
    int judged = 0;
    for (int factor = 1; factor <= 6; ++factor) {
        const Estimate estimate = estimate_with(demo_book(), mixed_request(factor));
        if (!estimate.buildable) continue;
        const Layout& layout = estimate.boxes.front().layout;
        std::map<int, double> end_of_row;
        for (const PlacedDevice& device : layout.devices) {
            if (device.face != Face::plate) continue;
            CAPTURE(factor, device.part, device.row);
            REQUIRE(device.row < static_cast<int>(layout.rows.size()));
            double& end = end_of_row[device.row];
            CHECK(device.x_mm >= end - 1e-6);
            end = device.x_mm + device.width_mm;
            CHECK(end <= layout.plate_width_mm - layout.duct_mm + 1e-6);
            CHECK(device.y_mm >= 0);
            CHECK(device.y_mm + device.height_mm <= layout.plate_height_mm);
            ++judged;
        }
    }
    std::cout << "layout: " << judged << " devices judged\n";
    CHECK(judged >= 800);
}
