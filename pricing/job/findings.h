#pragma once

#include <string>
#include <utility>
#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/choose_panel.h"

namespace backplate {

using Params = std::vector<std::pair<std::string, std::string>>;

/// Collects findings; severity and limits are those of the findings table. A code without a row (a
/// user's rule set may lack it) is not raised.
class FindingSink {
public:
    FindingSink(const RuleBook& rules, bool inch, std::vector<Finding>& out)
        : rules_(rules), inch_(inch), out_(out) {}
    /// Raises `code`. A code raised again for the same box (or job) adds `further`, a short text of
    /// the other place, to the parameter "further" of the first one. Lengths, temperatures and
    /// heights in the parameters are texts in the units of the job (document_units.h).
    void add(const std::string& code, std::string where, Params params = {},
             const std::string& further = {});
    /// The row's limit; 0 where it has none.
    double limit(const std::string& code) const;
    /// The row's second limit; 0 where it has none.
    double second_limit(const std::string& code) const;
    bool inch() const { return inch_; }
    const RuleBook& rules() const { return rules_; }

private:
    const RuleBook& rules_;
    bool inch_;
    std::vector<Finding>& out_;
};

// What each looks at; triggers are those of the findings table. `choice` without a design: nothing
// builds the box.
void request_findings(const Estimate& estimate, const std::vector<PanelChoice>& choices,
                      FindingSink& sink);
void scope_findings(const Estimate& estimate, const std::vector<PanelChoice>& choices,
                    FindingSink& sink);
/// The line between a box and its controller.
void link_finding(const Box& box, const PanelChoice& choice, FindingSink& sink);
void site_findings(const Box& box, const PanelChoice& choice, FindingSink& sink);
/// Doubts that a wish of the request brings, whether or not it can be built.
void asked_findings(const Box& box, FindingSink& sink);
/// What redundancy adds, and what is not judged where the box is not ours.
void choice_findings(const PanelChoice& choice, FindingSink& sink);
void point_findings(const PanelChoice& choice, FindingSink& sink);
/// Signals on conditional circuits; terminals that the price book has only as plain ones.
void demand_findings(const PanelChoice& choice, FindingSink& sink);
/// Units behind an entry of the estimate's supplies: the main ones, then those of the groups.
const SupplyChoice& units_of(const PanelDesign& design, std::size_t entry);
/// Supplies: shared loads, inrush, reserves, feeds, and other voltages.
void supply_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink);
/// Ducts, small parts, surges, the main switch's handle and the short-circuit rating.
void power_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink);
/// `points`: of all boxes.
void panel_findings(const PanelChoice& choice, const BoxResult& result,
                    const std::vector<PointResult>& points, const BidRequest& request,
                    FindingSink& sink);
void bill_findings(const Estimate& estimate, const PriceBook& book, FindingSink& sink);
void price_findings(const Estimate& estimate, FindingSink& sink);
/// Activities that the job demands and no hours are counted for.
void hours_findings(const Estimate& estimate, FindingSink& sink);
void caution_findings(const Estimate& estimate, const PriceBook& book, FindingSink& sink);
/// Batches, target, allowances, delivery term, estimate class, rates that hold overhead.
void money_findings(const Estimate& estimate, FindingSink& sink);
/// Prices that were turned into another currency.
void exchange_finding(const ExchangeRate& exchange, FindingSink& sink);

/// Gravest first; within a severity in the order of the findings table.
void sort_findings(std::vector<Finding>& findings, const RuleBook& rules);

std::string box_path(std::size_t index);
bool has_circumstance(const BidRequest& request, std::string_view key);

} // namespace backplate
