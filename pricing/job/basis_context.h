#pragma once

#include <string>
#include <vector>

#include "pricing/job/panel_basis.h"

namespace backplate {

/// Writes a formula while it gathers the inputs; counts without a place of their own stand in it
/// as plain numbers.
class Formula {
public:
    std::string use(const BasisInput& input);
    std::string product(const std::vector<BasisInput>& factors);
    /// Room for more inputs of one term?
    bool has_room() const { return inputs_.size() < 44; }
    std::vector<BasisInput> take() { return std::move(inputs_); }

private:
    std::vector<BasisInput> inputs_;
};

/// What the basis entries of one panel are written from.
struct Context {
    const PanelDesign& design;
    const SearchFacts& search;
    const BoxResult& result;
    std::string box; ///< "/boxes/0"
    Recorder& recorder;
    std::vector<Consumer> consumers;

    const RuleBook& rules() const { return *search.rules; }
    BasisInput rule(const Rule& row) const { return from_rule(row.id, row.text(), row.unit); }
    BasisInput future() const {
        return from_request(box + "/choices/future_load_percent",
                            search.facts.box->choices.future_load.text(), "%");
    }
    BasisInput figure(const std::string& path, double value, const char* unit) const {
        return from_figure(box + path, number_text(value), unit);
    }
};

void add(const Context& context, std::string figure, double value, const char* unit,
         std::string formula, std::string rule, std::vector<BasisInput> inputs, std::string source);

/// Loss of the supplies at the whole load.
std::string loss_term(const Context& context, Formula& formula);

/// Load, device and conductor of the incoming supply, and the 24 V channels.
void record_incoming(const Context& context);
void record_protection(const Context& context);

} // namespace backplate
