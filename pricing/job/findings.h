#pragma once

#include <string>
#include <utility>
#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/choose_panel.h"

namespace backplate {

using Params = std::vector<std::pair<std::string, std::string>>;

/// Collects findings; severity and limit are those of the findings table. A code without a row (a
/// user's rule set may lack it) is not raised; a code raised twice for one box keeps its first
/// place.
class FindingSink {
public:
    FindingSink(const RuleBook& rules, std::vector<Finding>& out) : rules_(rules), out_(out) {}
    void add(const std::string& code, std::string where, Params params = {});
    /// The row's limit; 0 where it has none.
    double limit(const std::string& code) const;
    const RuleBook& rules() const { return rules_; }

private:
    const RuleBook& rules_;
    std::vector<Finding>& out_;
};

// What each looks at; triggers are those of the findings table.
void request_findings(const BidRequest& request, FindingSink& sink);
void site_findings(const Box& box, const PanelChoice& choice, FindingSink& sink);
/// Doubts that a wish of the request brings, whether or not it can be built.
void asked_findings(const Box& box, FindingSink& sink);
/// What redundancy adds, and what is not judged where the box is not ours.
void choice_findings(const PanelChoice& choice, FindingSink& sink);
void panel_findings(const PanelChoice& choice, const BoxResult& result,
                    const std::vector<PointResult>& points, const BidRequest& request,
                    std::size_t box_index, FindingSink& sink);
void bill_findings(const Estimate& estimate, const PriceBook& book, FindingSink& sink);
void price_findings(const Estimate& estimate, FindingSink& sink);
void caution_findings(const Estimate& estimate, FindingSink& sink);

/// Gravest first; within a severity in the order of the findings table.
void sort_findings(std::vector<Finding>& findings, const RuleBook& rules);

std::string box_path(std::size_t index);

} // namespace backplate
