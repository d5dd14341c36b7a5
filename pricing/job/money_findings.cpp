#include "pricing/book/exchange.h"
#include "pricing/cost/roll_up.h"
#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string whole(std::int64_t value) { return steps_text(value, 0); }

void batch_finding(const Estimate& estimate, const BoxResult& box, std::size_t index,
                   FindingSink& sink) {
    if (box.quantity <= sink.limit("BATCH_LEARNING")) return;
    Hours once, each;
    for (const LabourLine& line : estimate.labour) {
        if (!line.box.empty() && line.box != box.name) continue;
        once += line.once;
        each += line.each;
    }
    const OptionalRule& slope = sink.rules().learning.slope;
    sink.add("BATCH_LEARNING", box_path(index) + "/quantity",
             {{"quantity", whole(box.quantity)},
              {"box", box.name},
              {"once_hours", number_text(once.number(), 1)},
              {"each_hours", number_text(each.number(), 1)},
              {"slope", slope ? slope->text() : "100"}});
}

void target_finding(const Estimate& estimate, FindingSink& sink) {
    const std::optional<Money>& target = estimate.request.commercial.target_price;
    const PriceResult& price = *estimate.price;
    if (target && price.price > *target)
        sink.add("TARGET_MISSED", "/commercial/target_price",
                 {{"difference",
                   (price.price - *target).unit_text(price.digits) + " " + price.currency}});
}

/// How much of the price rests on sums without an offer: they carry their part of overhead and
/// margin, none of the rounding.
void allowance_finding(const Estimate& estimate, FindingSink& sink) {
    const PriceResult& price = *estimate.price;
    Money sum;
    std::string names, where;
    for (std::size_t i = 0; i < estimate.bill.size(); ++i) {
        const BillLine& line = estimate.bill[i];
        if (line.role != "allowance" || !line.line_all) continue;
        sum += *line.line_all;
        names += (names.empty() ? "" : ", ") + line.description;
        if (where.empty()) where = "#/bill/" + whole(static_cast<std::int64_t>(i));
    }
    if (where.empty()) return;
    const double all = price.direct.number() * price.price.number();
    const double share =
        all == 0 ? 0 : sum.number() * (price.price - price.rounding).number() * 100 / all;
    sink.add("ALLOWANCE", where,
             {{"description", names},
              {"amount", sum.text(price.digits) + " " + price.currency + " (" +
                             number_text(share, 1) + " % of the price)"}});
}

/// Rates that hold overhead beside overhead on labour.
void charge_out_finding(const Estimate& estimate, FindingSink& sink) {
    const PricePolicy& policy = sink.rules().policy;
    if (policy.rates_are != "charge_out" || estimate.price->overhead.is_zero()) return;
    if (policy.overhead_style == "by_class" && overhead_percents(policy).labour == Percent{})
        return;
    sink.add("OVERHEAD_ON_CHARGE_OUT", "#/price/overhead",
             {{"overhead", estimate.price->overhead.text(estimate.price->digits) + " " +
                               estimate.price->currency}});
}

void class_finding(const BidRequest& request, FindingSink& sink) {
    if (request.estimate_class < sink.limit("CLASS5")) return;
    for (const EstimateClass& each : sink.rules().estimate_classes)
        if (each.number == request.estimate_class)
            sink.add("CLASS5", "/job/estimate_class",
                     {{"estimate_class", whole(request.estimate_class)},
                      {"low", each.low.text() + " %"},
                      {"high", "+" + each.high.text() + " %"}});
}

/// Words of what the seller bears, and what of it stands on the bill.
void term_findings(const Estimate& estimate, FindingSink& sink) {
    const BidRequest& request = estimate.request;
    const DeliveryTerm* term = sink.rules().find_term(request.commercial.delivery_term);
    if (!term || term->key == "EXW") return;
    std::string duties = "delivery to the carrier";
    if (term->carriage) duties += ", carriage";
    if (term->insurance) duties += ", insurance";
    if (term->duty) duties += ", import duty";
    Money sum;
    for (const BillLine& line : estimate.bill)
        if (!line.charge.empty() && line.role == "subcontract" && line.line_all)
            sum += *line.line_all;
    const std::string amount = sum.is_zero() || !estimate.price
                                   ? "nothing"
                                   : sum.text(estimate.price->digits) + " " + request.currency;
    sink.add("DUTY_FREIGHT", "/commercial/delivery_term",
             {{"term", term->key}, {"duties", duties}, {"amount", amount}});
    if (term->carriage && request.scope.transport == "excluded")
        sink.add("SCOPE_CONTRADICTION", "/scope", {{"what", "Carriage"}}, "carriage");
}

/// "DI 61.20, with a module 340.55"
void unit_price_finding(const Estimate& estimate, FindingSink& sink) {
    if (!has_circumstance(estimate.request, "unit_prices")) return;
    std::string signals;
    for (const UnitPrice& unit : estimate.unit_prices) {
        const int digits = estimate.price->digits;
        signals += (signals.empty() ? "" : "; ") + unit.signal + " " + unit.price.text(digits);
        if (unit.with_module) signals += ", with a module " + unit.with_module->text(digits);
    }
    if (signals.empty())
        signals = "no signal";
    else
        signals += " " + estimate.price->currency;
    sink.add("UNIT_PRICES", "/circumstances", {{"signals", signals}});
}

} // namespace

void exchange_finding(const ExchangeRate& exchange, FindingSink& sink) {
    std::string rate = exchange.rate.text() + " for one " + sink.rules().policy.currency;
    if (exchange.buffer_percent.number() != 0)
        rate += " and " + exchange.buffer_percent.text() + " % on top";
    sink.add("CURRENCY", "/job/currency",
             {{"currency", exchange.key}, {"rate", rate}, {"date", exchange.date}});
}

void money_findings(const Estimate& estimate, FindingSink& sink) {
    class_finding(estimate.request, sink);
    term_findings(estimate, sink);
    unit_price_finding(estimate, sink);
    if (!estimate.price) return;
    for (std::size_t i = 0; i < estimate.boxes.size(); ++i)
        batch_finding(estimate, estimate.boxes[i], i, sink);
    target_finding(estimate, sink);
    allowance_finding(estimate, sink);
    charge_out_finding(estimate, sink);
}

} // namespace backplate
