#include "pricing/job/rows_used.h"

namespace backplate {
namespace {

class Names {
public:
    void part(const std::string& key) {
        if (!key.empty()) names_.parts.insert(key);
    }
    /// `table/row`; a row may hold a slash itself.
    void rule(const std::string& id) {
        const auto slash = id.find('/');
        if (slash != std::string::npos && slash + 1 < id.size())
            names_.rules.emplace(id.substr(0, slash), id.substr(slash + 1));
    }
    void parts(const std::vector<PartCount>& counts) {
        for (const PartCount& count : counts) part(count.part);
    }
    void basis(const BasisEntry& entry) {
        rule(entry.rule);
        for (const BasisInput& input : entry.inputs) {
            if (input.from == BasisInput::From::rule) rule(input.path);
            if (input.from == BasisInput::From::part)
                part(input.path.substr(0, input.path.rfind('/')));
        }
    }
    void box(const BoxResult& box) {
        for (const ModuleResult& module : box.modules) part(module.part);
        for (const SupplyResult& supply : box.supplies) {
            part(supply.part);
            parts(supply.parts);
        }
        parts(box.heat.parts);
        for (const EnclosureResult& enclosure : box.enclosures) part(enclosure.part);
        if (box.incoming) part(box.incoming->part);
        if (box.protection) part(box.protection->part);
        if (box.short_circuit) part(box.short_circuit->weakest_part);
    }
    RowNames take() { return std::move(names_); }

private:
    RowNames names_;
};

} // namespace

RowNames rows_used(const Estimate& estimate) {
    Names names;
    for (const BillLine& line : estimate.bill) {
        names.part(line.part);
        names.rule(line.charge);
    }
    for (const BoxResult& box : estimate.boxes) names.box(box);
    for (const BasisEntry& entry : estimate.basis) names.basis(entry);
    for (const Assumption& assumption : estimate.request.assumptions) names.rule(assumption.rule);
    for (const Finding& finding : estimate.findings) names.rule("findings/" + finding.code);
    for (const OfferText& text : estimate.offer_texts) names.rule(text.rule);
    return names.take();
}

} // namespace backplate
