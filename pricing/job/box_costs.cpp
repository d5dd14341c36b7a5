#include "pricing/job/box_costs.h"

#include "pricing/job/findings.h"

namespace backplate {
namespace {

Money direct_of(const BoxResult& box) { return box.material + box.labour; }

/// price × part ÷ whole, rounded once.
Money share_of(Money price, Money part, Money whole, int digits) {
    if (whole.is_zero()) return {};
    const std::int64_t step = power_of_ten(Money::places - digits);
    return Money::of_steps(multiply_divide(price.steps(), part.steps(), whole.steps() * step,
                                           Rounding::half_away))
        .times(step);
}

Money direct_of_all(const Estimate& estimate) {
    Money sum;
    for (const BoxResult& box : estimate.boxes) sum += direct_of(box);
    return sum;
}

} // namespace

void share_costs(Estimate& estimate) {
    for (BoxResult& box : estimate.boxes) {
        for (const BillLine& line : estimate.bill)
            if (line.box == box.name && line.line_all) box.material += *line.line_all;
        for (const LabourLine& line : estimate.labour)
            if (line.box == box.name) box.labour += line.cost;
    }
    const PriceResult& price = *estimate.price;
    const Money whole = direct_of_all(estimate);
    Money rest = price.price;
    for (std::size_t i = 1; i < estimate.boxes.size(); ++i) {
        BoxResult& box = estimate.boxes[i];
        box.price = share_of(price.price, direct_of(box), whole, price.digits);
        rest = rest - box.price;
    }
    estimate.boxes.front().price = rest;
}

void record_shares(const Estimate& estimate, Recorder& recorder) {
    if (estimate.boxes.size() == 1) return;
    const PriceResult& price = *estimate.price;
    const BasisInput whole = from_figure("/price/price", price.price.text(price.digits), "");
    std::string others;
    for (std::size_t i = 1; i < estimate.boxes.size(); ++i) {
        const BoxResult& box = estimate.boxes[i];
        others += " − " + box.price.text(price.digits);
        recorder.add({box_path(i) + "/price/price",
                      box.price.text(price.digits),
                      price.currency,
                      "a × " + direct_of(box).text(price.digits) + " ÷ " +
                          direct_of_all(estimate).text(price.digits),
                      "price_policy/chain",
                      {whole},
                      "common practice: by material and own labour"});
    }
    recorder.add({box_path(0) + "/price/price",
                  estimate.boxes.front().price.text(price.digits),
                  price.currency,
                  "a" + others,
                  "price_policy/chain",
                  {whole},
                  "what the other boxes leave"});
}

void record_quantity(const BidRequest& request, const Box& box, const RuleBook& rules,
                     std::int64_t batch, Recorder& recorder) {
    const std::string at = box_path(box.index);
    const std::string pieces = steps_text(box.quantity, 0);
    if (box.quantity != box.per_system) {
        const Box& own = request.boxes[box.controller_box];
        recorder.add({at + "/quantity",
                      pieces,
                      "pieces",
                      "a × b",
                      "defaults/boxes[].quantity",
                      {from_request(at + "/quantity", steps_text(box.per_system, 0), "pieces"),
                       from_request(box_path(own.index) + "/quantity",
                                    steps_text(own.per_system, 0), "pieces")},
                      "request format 1: boxes of one system times the systems"});
    }
    const OptionalRule& slope = rules.learning.slope;
    if (box.quantity == 1 || !slope) return;
    recorder.add({at + "/batch_factor",
                  steps_text(batch, 6),
                  "",
                  rules.learning.theory + "(a, b)",
                  slope->id,
                  {from_rule(slope->id, slope->text(), slope->unit),
                   from_figure(at + "/quantity", pieces, "")},
                  slope->source});
}

} // namespace backplate
