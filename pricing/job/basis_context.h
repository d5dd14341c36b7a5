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

/// An entry of the estimate's supplies and what it rests on.
struct SupplyEntry {
    std::size_t index = 0;
    std::string path; ///< "/supplies/0"
    const SupplyChoice* units = nullptr;
    const GroupSupply* group = nullptr; ///< null: the main supply
    std::size_t consumers = 0;          ///< Consumer::group that it feeds
    Amperes together, all_on;
    BasisInput volts;
    BasisInput load_input(const Context& context) const; ///< everything on
};
std::vector<SupplyEntry> supply_entries(const Context& context);

/// Channels and decoupling of a group, which its supply feeds.
std::vector<Consumer> consumers_before(const GroupSupply& group, const SearchFacts& search);

/// Loss of the supplies at the whole load.
std::string loss_term(const Context& context, const SupplyEntry& entry, Formula& formula);

/// Loads of the supplies; then, once the air is known, what they are rated for.
void record_loads(const Context& context);
void record_supplies(const Context& context);

/// Load, device and conductor of the incoming supply, and the 24 V channels.
void record_incoming(const Context& context);
void record_protection(const Context& context);

} // namespace backplate
