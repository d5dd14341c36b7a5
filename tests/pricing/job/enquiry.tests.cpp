#include "pricing/job/enquiry.h"

#include <catch2/catch.hpp>

using namespace backplate;

namespace {

const Date day = Date::of(2026, 11, 25);

RuleBook rules_with_limit() {
    RuleBook rules;
    FindingRow old;
    old.code = "PRICE_OLD";
    old.limit = Decimal{180, 0};
    rules.findings.push_back(old);
    return rules;
}

/// A line of box A with a price of today.
BillLine bill_line(const char* part, std::int64_t quantity) {
    BillLine line;
    line.box = "A";
    line.part = part;
    line.description = std::string("Part ") + part;
    line.maker = "Velmora";
    line.role = "module";
    line.quantity = quantity;
    line.unit_net = Money::whole(10);
    line.price_date = day;
    return line;
}

PriceBook book_of_packs() {
    Part part;
    part.key = "P";
    part.kind = "terminal";
    part.pack = 50;
    part.minimum_order = 200;
    return PriceBook({part}, 1);
}

Estimate job_with(std::vector<BillLine> bill) {
    Estimate estimate;
    estimate.request.date = day;
    estimate.boxes.resize(2);
    estimate.boxes[0].name = "A";
    estimate.boxes[0].quantity = 3;
    estimate.boxes[1].name = "B";
    estimate.bill = std::move(bill);
    return estimate;
}

std::string reason_of(const BillLine& line) {
    const auto lines = enquiry_lines(job_with({line}), book_of_packs(), rules_with_limit());
    return lines.empty() ? "" : lines.at(0).reason;
}

} // namespace

TEST_CASE("a line is asked for where its price does not hold on the day") {
    BillLine line = bill_line("P", 1);
    CHECK(reason_of(line).empty());
    line.valid_until = day;
    CHECK(reason_of(line).empty());
    line.valid_until = day.plus_days(-1);
    CHECK(reason_of(line) == "ended 2026-11-24");
    line.valid_until.reset();
    line.price_date = day.plus_days(-180);
    CHECK(reason_of(line).empty());
    line.price_date = day.plus_days(-181);
    CHECK(reason_of(line) == "of 2026-05-28");
    line.allowance = true;
    CHECK(reason_of(line) == "price by hand, no offer");
    line.unit_net.reset();
    CHECK(reason_of(line) == "no price");
    line.role = "free_issue";
    CHECK(reason_of(line).empty());
    line.role = "sundries";
    CHECK(reason_of(line).empty());
}

TEST_CASE("quantities are those of all boxes, in packs and at least the minimum order") {
    BillLine in_a = bill_line("P", 30), in_b = bill_line("P", 20), other = bill_line("X", 2);
    in_b.box = "B";
    for (BillLine* line : {&in_a, &in_b, &other}) line->unit_net.reset();
    other.maker = "Isbrook";
    const auto lines =
        enquiry_lines(job_with({in_a, in_b, other}), book_of_packs(), rules_with_limit());
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].maker == "Isbrook");
    CHECK(lines[0].to_buy == 6);   // 2 in each of 3 boxes; a part that the book lacks has no packs
    CHECK(lines[1].needed == 110); // 3 × 30 + 20
    CHECK(lines[1].to_buy == 200);
    CHECK(lines[1].pack == 50);
}
