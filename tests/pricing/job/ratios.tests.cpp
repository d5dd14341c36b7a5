#include "pricing/job/ratios.h"

#include <catch2/catch.hpp>

#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Estimate priced(int boxes) {
    Work work;
    return price_job(request_of(box_request(points_text({{"DI", 20}, {"AI_MA", 4}}),
                                            R"(, "quantity": )" + std::to_string(boxes))),
                     demo_book(), starter_rules(), work);
}

double value_of(const Estimate& estimate, const std::string& name) {
    for (const RatioResult& ratio : estimate.ratios)
        if (ratio.name == name) return ratio.value;
    throw std::runtime_error("no ratio " + name);
}

} // namespace

// The seven ratios of the agreed words; numerators and denominators as their meanings say.
TEST_CASE("all ratios, over every box of the job") {
    for (const int boxes : {1, 3}) {
        const Estimate estimate = priced(boxes);
        REQUIRE(estimate.buildable);
        CHECK(estimate.ratios.size() == 7);
        int fitted = 0;
        for (const PointResult& point : estimate.points) fitted += point.fitted;
        double hours = 0, shop = 0, engineering = 0;
        for (const LabourLine& line : estimate.labour) {
            hours += line.hours.number();
            shop += line.work_class == "shop" ? line.hours.number() : 0;
            engineering += line.work_class == "engineering" ? line.hours.number() : 0;
        }
        const PriceResult& price = *estimate.price;
        const BoxResult& box = estimate.boxes.front();
        CHECK(value_of(estimate, "price_per_point") == Approx(price.price.number() / (24 * boxes)));
        CHECK(value_of(estimate, "price_per_channel") ==
              Approx(price.price.number() / (fitted * boxes)));
        CHECK(value_of(estimate, "material_share_percent") ==
              Approx(price.material.number() / price.direct.number() * 100));
        CHECK(value_of(estimate, "hours_per_point") == Approx(hours / (24 * boxes)));
        CHECK(value_of(estimate, "build_hours_per_wire") == Approx(shop / (*box.wires * boxes)));
        CHECK(value_of(estimate, "build_hours_per_terminal") ==
              Approx(shop / (*box.terminals * boxes)));
        CHECK(value_of(estimate, "engineering_to_build") == Approx(engineering / shop));
    }
}

TEST_CASE("every ratio has its basis") {
    const Estimate estimate = priced(2);
    int found = 0;
    for (const BasisEntry& entry : estimate.basis)
        found += entry.figure.starts_with("/ratios/") ? 1 : 0;
    CHECK(found == 7);
}
