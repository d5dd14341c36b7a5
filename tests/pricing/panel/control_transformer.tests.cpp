// Published figures of control transformers stand in electrical_checks.tests.cpp (TR1, TR2); here
// the rest of NEC 450.3(B) by hand.
#include <catch2/catch.hpp>

#include "pricing/panel/control_transformer.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

const TransformerRules& rows() { return *starter_rules().transformers; }

const std::vector<double> fuses{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30};

} // namespace

TEST_CASE("only at 125 % does a transformer's device round up") {
    // 1500 VA at 120 V: 12.5 A, 125 % is 15.625 A, no standard rating: the next above is 20 A.
    const DeviceLimit high = secondary_limit(12.5, rows());
    CHECK(high.amps == Approx(15.625));
    CHECK(high.round_up);
    CHECK(rating_within(high, 12.5, fuses) == 20.0);
    // 12 A: 125 % is 15 A, which is a standard rating: it stands.
    CHECK(rating_within(secondary_limit(12, rows()), 12, fuses) == 15.0);
    // 750 VA at 120 V: 6.25 A, 167 % is 10.4375 A: down to 10 A.
    CHECK(rating_within(secondary_limit(6.25, rows()), 6.25, fuses) == 10.0);
    // 75 VA at 480 V: 0.156 A, 250 % is 0.391 A: none of these is so small.
    CHECK_FALSE(rating_within(primary_limit(0.15625, false, rows()), 0.15625, fuses));
}

TEST_CASE("a device below the rated current protects nothing, it trips") {
    // 5 A at most 8.35 A: of 3, 4 and 10 A none lies between.
    CHECK_FALSE(rating_within(secondary_limit(5, rows()), 5, {3, 4, 10}));
    CHECK(rating_within(secondary_limit(5, rows()), 5, {3, 5, 10}) == 5.0);
    CHECK_FALSE(rating_within(secondary_limit(5, rows()), 5, {}));
}

TEST_CASE("what pulls in decides the nameplate where it asks for more than what stays on") {
    // Inrush 5 × sealed: √(1 + 25) = 5.099 × sealed; a transformer gives 3 × its nameplate.
    CHECK(nameplate_share(rows()) == Approx(3 / 5.0990195));
    TransformerRules lamps = rows();
    lamps.inrush_factor.value = {0, 0};
    CHECK(nameplate_share(lamps) == 1); // never beyond the nameplate
}
