#include "pricing/price_job.h"

#include "pricing/book/exchange.h"
#include "pricing/cost/bill.h"
#include "pricing/cost/charges.h"
#include "pricing/cost/roll_up.h"
#include "pricing/job/box_result.h"
#include "pricing/job/findings.h"
#include "pricing/job/offer_texts.h"
#include "pricing/job/options.h"
#include "pricing/job/panel_basis.h"
#include "pricing/job/ratios.h"
#include "pricing/job/unit_prices.h"
#include "pricing/panel/choose_panel.h"

namespace backplate {
namespace {

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// What only the sizing knows of the printed assumptions.
void complete_assumptions(Estimate& estimate) {
    std::string rating = "no stated";
    for (const BoxResult& box : estimate.boxes)
        if (box.short_circuit) rating = number_text(box.short_circuit->stated_ka, 1);
    if (!estimate.buildable) // nothing was sized, so no rating is offered
        std::erase_if(estimate.request.assumptions, [](const Assumption& assumption) {
            return assumption.text.find("{rating_ka}") != std::string::npos;
        });
    for (Assumption& assumption : estimate.request.assumptions)
        replace_all(assumption.text, "{rating_ka}", rating);
}

/// The rules and list prices of a run in the job's currency, and those they came from.
struct Prices {
    const PriceBook& book;                  ///< as it stands in the library
    const RuleBook& rules;                  ///< in the job's currency
    const ExchangeRate* exchange = nullptr; ///< null: the price book's own currency
};

/// How many equal boxes count with their learning curve.
void record_batch(const LabourPlan& plan, const BoxResult& result, const RuleBook& rules,
                  Recorder& recorder) {
    const OptionalRule& slope = rules.learning.slope;
    if (result.quantity == 1 || !slope) return;
    const std::string box = box_path(plan.box_index);
    recorder.add({box + "/batch_factor",
                  steps_text(plan.batch, 6),
                  "",
                  rules.learning.theory + "(a, b)",
                  slope->id,
                  {from_rule(slope->id, slope->text(), slope->unit),
                   from_request(box + "/quantity", steps_text(result.quantity, 0), "")},
                  slope->source});
}

void price_panel(Estimate& estimate, const PanelChoice& choice, const Prices& prices,
                 Recorder& recorder) {
    const RuleBook& rules = prices.rules;
    const PanelDesign& design = *choice.design;
    const Box& box = *choice.search->facts.box;
    const int digits = rules.digits_of(estimate.request.currency);
    estimate.labour = labour_lines(choice.search->plan, design.counts, box.name, digits, &recorder);
    Money labour;
    for (const LabourLine& line : estimate.labour) labour += line.cost;
    estimate.bill = bill_lines(design.bill, estimate.request, box, rules, digits);
    add_charges(estimate.bill, labour, estimate.request, box, rules, digits);
    estimate.price = roll_up(estimate.bill, estimate.labour, estimate.request, rules);
    record_bill(estimate.bill, design.bill, prices.book, prices.exchange, rules, recorder);
    record_charges(estimate.bill, estimate.labour, box, rules, recorder);
    record_price(*estimate.price, estimate.bill, estimate.labour, estimate.request, rules,
                 recorder);
    BoxResult& result = estimate.boxes.back();
    result.batch = choice.search->plan.batch;
    record_batch(choice.search->plan, result, rules, recorder);
    result.material = estimate.price->material;
    for (const LabourLine& line : estimate.labour)
        if (!line.box.empty()) result.labour += line.cost;
    result.price = estimate.price->price;
    estimate.ratios = ratios_of(estimate, rules);
    if (has_circumstance(estimate.request, "unit_prices"))
        estimate.unit_prices = unit_prices(choice, *estimate.price);
    fill_delivery(estimate, rules);
}

void not_buildable(Estimate& estimate, const PanelChoice& choice, FindingSink& sink) {
    std::string limits;
    for (const std::string& limit : choice.limits) limits += (limits.empty() ? "" : "; ") + limit;
    const Box& box = *choice.search->facts.box;
    estimate.buildable = false;
    BoxResult result;
    result.name = box.name;
    result.quantity = box.quantity;
    estimate.boxes.push_back(std::move(result));
    sink.add("UNBUILDABLE", box_path(box.index), {{"box", box.name}, {"limits", limits}});
}

SystemResult system_of(const PanelChoice& choice) {
    const std::string& name = choice.search->facts.box->name;
    SystemResult system{name, choice.platform, {name}, true, Money{}};
    system.proven_cheapest = choice.design && choice.proven && choice.design->mix_proven;
    return system;
}

void build(Estimate& estimate, const PanelChoice& choice, const Prices& prices, FindingSink& sink,
           Work& work) {
    const RuleBook& rules = prices.rules;
    Recorder recorder;
    const Box& box = *choice.search->facts.box;
    estimate.boxes.push_back(box_result(choice, rules, work));
    record_required(choice.search->facts.demand, box, estimate.request.spare, 0, recorder);
    record_panel(choice, estimate.boxes.back(), estimate.points, 0, recorder);
    record_counts(choice, recorder);
    price_panel(estimate, choice, prices, recorder);
    record_ratios(estimate, rules, recorder);
    record_unit_prices(estimate.unit_prices, *estimate.price, recorder);
    record_choices(estimate, recorder);
    record_delivery(estimate, rules, recorder);
    panel_findings(choice, estimate.boxes.back(), estimate.points, estimate.request, 0, sink);
    estimate.basis = recorder.take();
}

/// The rate that the job's currency needs; null where it is the price book's own.
const ExchangeRate* exchange_of(const BidRequest& request, const RuleBook& rules) {
    const std::string& own = rules.policy.currency;
    return own.empty() || own == request.currency ? nullptr : rules.find_exchange(request.currency);
}

/// Sizes and prices the base with amounts that are all in the job's currency.
Estimate estimate_with(const BidRequest& request, const PriceBook& book, const Prices& prices,
                       Work& work) {
    const RuleBook& rules = prices.rules;
    Estimate estimate;
    estimate.prices_issue = book.issue();
    estimate.rules_issue = rules.issue;
    estimate.demo_data = book.demo_data();
    estimate.request = request;
    FindingSink sink(rules, request.inch, estimate.findings);
    const Box& box = estimate.request.boxes.front(); // one box in this version, see check_request
    const PanelChoice choice = choose_panel(estimate.request, box, book, rules, work);
    estimate.points = point_results(choice, request);
    estimate.systems.push_back(system_of(choice));
    if (choice.design)
        build(estimate, choice, prices, sink, work);
    else
        not_buildable(estimate, choice, sink);
    if (prices.exchange) exchange_finding(*prices.exchange, sink);
    request_findings(estimate, choice, sink);
    scope_findings(estimate, choice, sink);
    money_findings(estimate, sink);
    site_findings(box, choice, sink);
    point_findings(choice, sink);
    if (estimate.buildable) {
        bill_findings(estimate, book, sink);
        price_findings(estimate, sink);
        hours_findings(estimate, sink);
    }
    caution_findings(estimate, book, sink);
    complete_assumptions(estimate);
    sort_findings(estimate.findings, rules);
    if (estimate.buildable) estimate.offer_texts = offer_texts(estimate, book, rules);
    return estimate;
}

Estimate base_estimate(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                       Work& work) {
    const ExchangeRate* exchange = exchange_of(request, rules);
    if (!exchange) return estimate_with(request, book, {book, rules}, work);
    const RuleBook converted = exchanged(rules, *exchange);
    return estimate_with(request, exchanged(book, *exchange), {book, converted, exchange}, work);
}

} // namespace

Estimate price_job(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                   Work& work) {
    Estimate estimate = base_estimate(request, book, rules, work);
    add_option_prices(estimate, book, rules, work);
    return estimate;
}

} // namespace backplate
