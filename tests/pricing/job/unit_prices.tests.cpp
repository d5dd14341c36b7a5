#include "pricing/job/unit_prices.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Estimate priced(const std::string& more) {
    Work work;
    return price_job(
        request_of(box_request(points_text({{"DI", 20}, {"DO", 10}, {"AI_MA", 4}}), "", more)),
        demo_book(), starter_rules(), work);
}

const std::string asked = R"(, "circumstances": ["unit_prices"])";

const UnitPrice* find(const Estimate& estimate, const std::string& signal) {
    for (const UnitPrice& unit : estimate.unit_prices)
        if (unit.signal == signal) return &unit;
    return nullptr;
}

} // namespace

TEST_CASE("unit prices only where they are asked, one for every signal") {
    CHECK(priced("").unit_prices.empty());
    const Estimate estimate = priced(asked);
    CHECK(estimate.unit_prices.size() == 3);
    for (const UnitPrice& unit : estimate.unit_prices) {
        CAPTURE(unit.signal);
        CHECK(unit.price > Money{});
        REQUIRE(unit.with_module);
        CHECK(*unit.with_module > unit.price);
    }
}

// What trade-practice 1.2 names, by hand from the starter rows: a module costs its net price with
// sundries 1.1 % (4 % less 2.9 % for small parts that are lines) and freight 2 %, mounting 10 min,
// three wires (6.2 min and a check of 2 min each, and 1.2 m) and a sheet from a typical of 30 min;
// documents take 10 % of engineering and project lead 5 % of all other hours.
TEST_CASE("a further module costs its price, mounting, wires and sheet") {
    const Estimate estimate = priced(asked);
    const UnitPrice* unit = find(estimate, "DI");
    REQUIRE(unit);
    double wire = 0;
    for (const BillLine& line : estimate.bill)
        if (line.role == "wire") wire = line.unit_net->number();
    double module = 0;
    for (const Part& part : demo_parts())
        if (part.key == unit->module) {
            module = part.net()->number();
            for (const Accessory& accessory : part.accessories)
                module += demo_book().find(accessory.part)->net()->number() * accessory.quantity;
        }
    const double material = (module + 3 * 1.2 * wire) * 1.011 * 1.02;
    const double shop = (10 + 3 * 6.2) / 60, test = 3 * 2.0 / 60, drawing = 0.5;
    const double documents = 0.1 * drawing;
    const double lead = 0.05 * (shop + test + drawing + documents);
    const double labour = shop * 52 + test * 64 + drawing * 78 + documents * 66 + lead * 84;
    const double direct = (*unit->direct_with_module - unit->direct).number();
    // hours round to a millionth
    CHECK(direct == Approx(material + labour).margin(0.02));
}

TEST_CASE("a unit price carries what the job's price carries") {
    const Estimate plain = priced(asked);
    const Estimate dear = priced(asked + R"(, "commercial": {"margin_percent": 40,
                                                             "contingency_percent": 10})");
    // compound, margin of the price: direct × 1.05 × 1.12 ÷ 0.8 and × 1.10 × 1.12 ÷ 0.6 (PR1)
    for (const UnitPrice& unit : plain.unit_prices)
        CHECK(unit.price.number() ==
              Approx(unit.direct.number() * 1.05 * 1.12 / 0.8).margin(0.0051).epsilon(1e-5));
    for (const UnitPrice& unit : dear.unit_prices)
        CHECK(unit.price.number() ==
              Approx(unit.direct.number() * 1.10 * 1.12 / 0.6).margin(0.0051).epsilon(1e-5));
}
