#include "pricing/price_job.h"

#include "pricing/cost/bill.h"
#include "pricing/cost/roll_up.h"
#include "pricing/job/box_result.h"
#include "pricing/job/findings.h"
#include "pricing/job/offer_texts.h"
#include "pricing/job/panel_basis.h"
#include "pricing/job/ratios.h"
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

void price_panel(Estimate& estimate, const PanelChoice& choice, const RuleBook& rules,
                 Recorder& recorder) {
    const PanelDesign& design = *choice.design;
    const Box& box = *choice.search->facts.box;
    const int digits = rules.digits_of(estimate.request.currency);
    estimate.bill = bill_lines(design.bill, box, rules, digits);
    estimate.labour = labour_lines(choice.search->plan, design.counts, box.name, digits, &recorder);
    estimate.price = roll_up(estimate.bill, estimate.labour, estimate.request, rules);
    record_bill(estimate.bill, design.bill, rules, recorder);
    record_price(*estimate.price, estimate.request, rules, recorder);
    BoxResult& result = estimate.boxes.back();
    result.material = estimate.price->material;
    for (const LabourLine& line : estimate.labour)
        if (!line.box.empty()) result.labour += line.cost;
    result.price = estimate.price->price;
    estimate.ratios = ratios_of(estimate, rules);
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

void build(Estimate& estimate, const PanelChoice& choice, const RuleBook& rules, FindingSink& sink,
           Work& work) {
    Recorder recorder;
    const Box& box = *choice.search->facts.box;
    estimate.boxes.push_back(box_result(choice, rules, work));
    record_required(choice.search->facts.demand, box, estimate.request.spare, 0, recorder);
    record_panel(choice, estimate.boxes.back(), estimate.points, 0, recorder);
    record_counts(choice, recorder);
    price_panel(estimate, choice, rules, recorder);
    record_delivery(estimate, rules, recorder);
    panel_findings(choice, estimate.boxes.back(), estimate.points, estimate.request, 0, sink);
    estimate.basis = recorder.take();
}

} // namespace

Estimate price_job(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                   Work& work) {
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
        build(estimate, choice, rules, sink, work);
    else
        not_buildable(estimate, choice, sink);
    request_findings(estimate, choice, sink);
    scope_findings(estimate, choice, sink);
    site_findings(box, choice, sink);
    point_findings(choice, sink);
    if (estimate.buildable) {
        bill_findings(estimate, book, sink);
        price_findings(estimate, sink);
    }
    caution_findings(estimate, book, sink);
    complete_assumptions(estimate);
    sort_findings(estimate.findings, rules);
    if (estimate.buildable) estimate.offer_texts = offer_texts(estimate, book, rules);
    return estimate;
}

} // namespace backplate
