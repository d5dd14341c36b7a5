#include "pricing/cost/charges.h"

#include <catch2/catch.hpp>

#include "pricing/book/exchange.h"
#include "pricing/cost/bill.h"
#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Money euros(const char* text) { return *Money::parse(text); }

Rule rule_of(const char* id, const char* value) {
    Rule rule;
    rule.id = id;
    rule.value = *parse_decimal(value);
    return rule;
}

Charge charge(const char* value, const char* of) {
    return {rule_of("charges/any", value), "Any charge", "allowance", of, "always"};
}

LabourLine hours_of(const char* box, const char* cost) {
    LabourLine line;
    line.box = box;
    line.cost = euros(cost);
    return line;
}

/// A bill of one line of goods, 1000.00 in each of the boxes.
struct Sample {
    RuleBook rules = starter_rules();
    BidRequest request;
    std::vector<BillLine> bill;

    explicit Sample(int boxes) {
        request.boxes.resize(1);
        request.boxes.front().name = "CP1";
        request.boxes.front().quantity = boxes;
        rules.charges.clear();
        BillLine line;
        line.box = "CP1";
        line.maker = "Any maker";
        line.quantity = 10;
        line.unit_net = Money::whole(100);
        line.line_net = Money::whole(1000);
        line.line_all = line.line_net->times(boxes);
        bill.push_back(line);
    }
    const std::vector<BillLine>& charged(const char* labour) {
        add_charges(bill, {hours_of("CP1", labour)}, request, rules, 2);
        return bill;
    }
};

} // namespace

TEST_CASE("charges in percent and per box or job") {
    struct Row {
        const char* value;
        const char* of;
        const char* line_net;
    };
    // three boxes of 1000.00, 600.00 of labour for all: by hand
    constexpr Row rows[] = {{"2", "material", "20.00"}, // 3000 × 2 % ÷ 3
                            {"5", "labour", "10.00"},   // 600 × 5 % ÷ 3
                            {"1", "direct", "12.00"},   // 3600 × 1 % ÷ 3
                            {"45.50", "box", "45.50"},
                            {"100.00", "job", "33.33"}};
    for (const Row& row : rows) {
        Sample sample(3);
        sample.rules.charges = {charge(row.value, row.of)};
        const auto& bill = sample.charged("600");
        CAPTURE(row.of);
        REQUIRE(bill.size() == 2);
        CHECK(bill.back().line == 2);
        CHECK(*bill.back().line_net == euros(row.line_net));
        CHECK(*bill.back().line_all == bill.back().line_net->times(3));
        CHECK(goods_of(bill) == euros("3000"));
        CHECK(material_of(bill) == euros("3000") + *bill.back().line_all);
    }
    Sample none(1);
    none.rules.charges = {charge("0", "material")};
    CHECK(none.charged("600").size() == 1);
}

TEST_CASE("the search counts charges in percent as the bill does") {
    Sample sample(1);
    sample.rules.charges = {charge("2", "material"), charge("5", "labour"), charge("1", "direct"),
                            charge("9.00", "box")};
    const ChargePlan plan = charge_plan(sample.request, sample.request.boxes.front(), sample.rules);
    CHECK(plan.charges.size() == 4);
    // 1000 × 1.04 = 1040 with sundries; × (1 + 2 % freight + 3 %) + 600 × 1.06
    CHECK(with_charges(10000000, 6000000, plan) == 10920000 + 6360000);
}

// Trade-practice 4.4: two months at 0.5 % on 40,000 cost 401.
TEST_CASE("rise of prices after their validity") {
    CHECK(escalation(40000, 0.5, 2) == Approx(401).margin(1e-9));
    CHECK(months_between(Date::of(2026, 11, 24), Date::of(2026, 11, 24)) == 0);
    CHECK(months_between(Date::of(2026, 11, 24), Date::of(2026, 11, 25)) == 1);
    CHECK(months_between(Date::of(2026, 11, 24), Date::of(2026, 12, 24)) == 1);
    CHECK(months_between(Date::of(2026, 11, 24), Date::of(2027, 1, 23)) == 2);
    CHECK(months_between(Date::of(2026, 11, 24), Date::of(2027, 11, 24)) == 12);
    Sample sample(40);
    sample.bill.front().months_uncovered = 2;
    sample.rules.policy.escalation_percent_per_month = rule_of("price_policy/any", "0.5");
    const auto& bill = sample.charged("0");
    REQUIRE(bill.size() == 2);
    CHECK(*bill.back().line_net == euros("10.03")); // 401 ÷ 40 = 10.025
    CHECK(bill.back().role == "allowance");
}

// Trade-practice 4.1: 107 terminals in packs of 50 are 150.
TEST_CASE("packs and minimum orders") {
    Part part;
    part.pack = 50;
    CHECK(pieces_to_buy(part, 107) == 150);
    CHECK(pieces_to_buy(part, 150) == 150);
    CHECK(pieces_to_buy(part, 0) == 0);
    part.minimum_order = 210;
    CHECK(pieces_to_buy(part, 107) == 250);
    part.pack = 1;
    CHECK(pieces_to_buy(part, 107) == 210);
}

TEST_CASE("who pays the rest of a pack") {
    struct Row {
        const char* word;
        const char* rest_to;
        const char* rest;
    };
    constexpr Row rows[] = {{"need", "job", "0"},
                            {"pack", "stock", "18.40"}, // 46 pieces at 0.40
                            {"part", "job", "18.40"},
                            {"part", "stock", "0"}};
    for (const Row& row : rows) {
        CAPTURE(row.word, row.rest_to);
        Sample sample(2);
        sample.rules.policy.pack_charge = row.word;
        Part part;
        part.key = "T";
        part.list = euros("0.40");
        part.pack = 50;
        part.rest_to = row.rest_to;
        const std::vector<BillItem> items{{&part, nullptr, "terminal", 27}}; // 54 of 100
        const auto bill = bill_lines({{&sample.request.boxes.front(), &items}}, {}, sample.request,
                                     sample.rules, 2);
        CHECK(bill.front().to_buy == 100);
        Money rest;
        for (const BillLine& line : bill)
            if (!line.charge.empty()) rest += *line.line_all;
        CHECK(rest == euros(row.rest));
    }
}

TEST_CASE("a small order takes its surcharge once per maker") {
    Sample sample(1);
    sample.rules.policy.small_order_limit = rule_of("price_policy/limit", "1000.01");
    sample.rules.policy.small_order_surcharge = rule_of("price_policy/surcharge", "15");
    CHECK(*sample.charged("0").back().line_all == euros("15"));
    Sample large(1);
    large.rules.policy.small_order_limit = rule_of("price_policy/limit", "1000.00");
    large.rules.policy.small_order_surcharge = rule_of("price_policy/surcharge", "15");
    CHECK(large.charged("0").size() == 1);
}

TEST_CASE("another currency: rate, buffer, every amount once") {
    ExchangeRate rate{"USD", rule_of("exchange_rates/USD", "1.10"),
                      rule_of("exchange_rates/USD", "2"), "2026-11-02"};
    // 600.00 × 1.10 × 1.02, by hand
    CHECK(exchanged(euros("600.00"), rate) == euros("673.20"));
    CHECK(exchanged(euros("0.0333"), rate) == euros("0.0374"));
    const RuleBook rules = exchanged(starter_rules(), rate);
    CHECK(rules.rates.at("shop").text() == "58.3440"); // 52 × 1.122
    CHECK(rules.rates.at("shop").before_exchange->text() == "52.00");
    CHECK(rules.policy.overhead.text() == starter_rules().policy.overhead.text());
    const std::string points = points_text({{"DI", 8}});
    Work work;
    const BidRequest own = request_of(box_request(points));
    const BidRequest other = request_of(box_request(points, "", R"(, "job": {"currency": "USD"})"));
    const Estimate in_euros = price_job(own, demo_book(), starter_rules(), work);
    const Estimate in_dollars = price_job(other, demo_book(), starter_rules(), work);
    REQUIRE(in_dollars.price);
    CHECK(in_dollars.price->currency == "USD");
    CHECK(in_dollars.price->direct.number() ==
          Approx(in_euros.price->direct.number() * 1.122).epsilon(1e-4));
    int found = 0;
    for (const Finding& finding : in_dollars.findings) found += finding.code == "CURRENCY";
    CHECK(found == 1);
}
