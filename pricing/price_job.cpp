#include "pricing/price_job.h"

#include <algorithm>

#include "pricing/book/exchange.h"
#include "pricing/cost/bill.h"
#include "pricing/cost/roll_up.h"
#include "pricing/job/box_costs.h"
#include "pricing/job/box_result.h"
#include "pricing/job/conflict.h"
#include "pricing/job/findings.h"
#include "pricing/job/offer_texts.h"
#include "pricing/job/options.h"
#include "pricing/job/panel_basis.h"
#include "pricing/job/ratios.h"
#include "pricing/job/unit_prices.h"
#include "pricing/panel/choose_boxes.h"

namespace backplate {
namespace {

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// What only the sizing knows of the printed assumptions: the lowest rating that is offered.
void complete_assumptions(Estimate& estimate) {
    std::optional<double> rating;
    for (const BoxResult& box : estimate.boxes)
        if (box.short_circuit && box.short_circuit->stated_ka)
            rating = std::min(rating.value_or(*box.short_circuit->stated_ka),
                              *box.short_circuit->stated_ka);
    if (!estimate.buildable) // nothing was sized, so no rating is offered
        std::erase_if(estimate.request.assumptions, [](const Assumption& assumption) {
            return assumption.text.find("{rating_ka}") != std::string::npos;
        });
    for (Assumption& assumption : estimate.request.assumptions)
        replace_all(assumption.text, "{rating_ka}",
                    rating ? number_text(*rating, 1) : std::string("no stated"));
}

/// The rules and list prices of a run in the job's currency, and those they came from.
struct Prices {
    const PriceBook& book;                  ///< as it stands in the library
    const RuleBook& rules;                  ///< in the job's currency
    const ExchangeRate* exchange = nullptr; ///< null: the price book's own currency
};

using Panels = std::vector<PanelChoice>;

const Box& box_of(const PanelChoice& choice) { return *choice.search->facts.box; }

/// Hours, bill and price over all boxes.
void price_panels(Estimate& estimate, const Panels& choices, const Prices& prices,
                  Recorder& recorder, bool with_range) {
    const RuleBook& rules = prices.rules;
    const BidRequest& request = estimate.request;
    const int digits = rules.digits_of(request.currency);
    std::vector<BoxLabour> labour;
    std::vector<BoxBill> bills;
    for (const PanelChoice& choice : choices) {
        labour.push_back({&choice.search->plan, &choice.design->counts, box_of(choice).name});
        bills.push_back({&box_of(choice), &choice.design->bill, choice.search->small.shares});
    }
    estimate.labour = labour_lines(labour, digits, &recorder);
    estimate.bill = bill_lines(bills, estimate.labour, request, rules, digits);
    estimate.price = roll_up(estimate.bill, estimate.labour, request, rules, with_range);
    record_bill(estimate.bill, bills, prices.book, prices.exchange, rules, recorder);
    record_charges(estimate.bill, estimate.labour, request, rules, recorder);
    record_price(*estimate.price, estimate.bill, estimate.labour, request, rules, recorder);
    share_costs(estimate);
    record_shares(estimate, recorder);
    estimate.ratios = ratios_of(estimate, rules);
    if (has_circumstance(request, "unit_prices"))
        for (const PanelChoice& choice : choices)
            for (UnitPrice& price : unit_prices(choice, *estimate.price))
                estimate.unit_prices.push_back(std::move(price));
    fill_delivery(estimate, rules);
}

void not_buildable(Estimate& estimate, const Panels& choices, FindingSink& sink) {
    estimate.buildable = false;
    for (const PanelChoice& choice : choices) {
        const Box& box = box_of(choice);
        BoxResult result;
        result.name = box.name;
        result.quantity = box.quantity;
        estimate.boxes.push_back(std::move(result));
        std::string limits;
        for (const std::string& limit : choice.limits)
            limits += (limits.empty() ? "" : "; ") + limit;
        if (!choice.design && !limits.empty())
            sink.add("UNBUILDABLE", box_path(box.index), {{"box", box.name}, {"limits", limits}});
    }
}

/// Every controller with the boxes that it leads.
std::vector<SystemResult> systems_of(const Panels& choices) {
    std::vector<SystemResult> systems;
    for (const PanelChoice& own : choices) {
        if (box_of(own).controlled_by != ControlledBy::own) continue;
        SystemResult system{box_of(own).name, own.platform, {}, true, Money{}};
        for (const PanelChoice& choice : choices) {
            if (box_of(choice).controller_box != box_of(own).index) continue;
            system.boxes.push_back(box_of(choice).name);
            system.proven_cheapest = system.proven_cheapest && choice.design && choice.proven &&
                                     choice.design->mix_proven;
        }
        systems.push_back(std::move(system));
    }
    return systems;
}

/// Result, points' basis and findings of one box.
void build_box(Estimate& estimate, const PanelChoice& choice, Recorder& recorder, Work& work) {
    const BoxFacts& facts = choice.search->facts;
    const RuleBook& rules = *choice.search->rules;
    BoxResult result = box_result(choice, rules, work);
    result.batch = choice.search->plan.batch;
    record_required(facts.demand, *facts.box, estimate.request, facts.first_point,
                    facts.share.spare, recorder);
    record_panel(choice, result, estimate.points, facts.first_point, recorder);
    record_counts(choice, recorder);
    record_quantity(estimate.request, *facts.box, rules, result.batch, recorder);
    estimate.boxes.push_back(std::move(result));
}

void build(Estimate& estimate, const Panels& choices, const Prices& prices, FindingSink& sink,
           Work& work) {
    Recorder recorder;
    for (const PanelChoice& choice : choices) build_box(estimate, choice, recorder, work);
    price_panels(estimate, choices, prices, recorder, work.wanted.range);
    record_ratios(estimate, prices.rules, recorder);
    record_unit_prices(estimate.unit_prices, *estimate.price, recorder);
    record_choices(estimate, recorder);
    record_delivery(estimate, prices.rules, recorder);
    for (std::size_t i = 0; i < choices.size(); ++i)
        panel_findings(choices[i], estimate.boxes[i], estimate.points, estimate.request, sink);
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
    const Panels choices = choose_boxes(estimate.request, book, rules, work);
    for (const PanelChoice& choice : choices)
        for (PointResult& point : point_results(choice, request))
            estimate.points.push_back(std::move(point));
    estimate.systems = systems_of(choices);
    if (std::all_of(choices.begin(), choices.end(),
                    [](const PanelChoice& choice) { return choice.design.has_value(); }))
        build(estimate, choices, prices, sink, work);
    else
        not_buildable(estimate, choices, sink);
    if (prices.exchange) exchange_finding(*prices.exchange, sink);
    request_findings(estimate, choices, sink);
    scope_findings(estimate, choices, sink);
    money_findings(estimate, sink);
    for (const PanelChoice& choice : choices) {
        link_finding(box_of(choice), choice, sink);
        site_findings(box_of(choice), choice, sink);
        point_findings(choice, sink);
    }
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

} // namespace

Estimate price_once(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                    Work& work) {
    const ExchangeRate* exchange = exchange_of(request, rules);
    if (!exchange) return estimate_with(request, book, {book, rules}, work);
    const RuleBook converted = exchanged(rules, *exchange);
    return estimate_with(request, exchanged(book, *exchange), {book, converted, exchange}, work);
}

Estimate price_job(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                   Work& work) {
    Estimate estimate = price_once(request, book, rules, work);
    add_option_prices(estimate, book, rules, work);
    add_conflicts(estimate, book, rules, work);
    return estimate;
}

} // namespace backplate
