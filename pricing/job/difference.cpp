#include "pricing/job/difference.h"

#include <algorithm>
#include <set>

namespace backplate {
namespace {

using Figure = std::optional<double>;

Figure width_of(const Estimate& estimate) {
    double sum = 0;
    for (const BoxResult& box : estimate.boxes)
        for (const EnclosureResult& enclosure : box.enclosures) {
            if (!enclosure.width_mm) return std::nullopt;
            sum += *enclosure.width_mm * enclosure.quantity * box.quantity;
        }
    return sum;
}

Figure height_of(const Estimate& estimate) {
    double highest = 0;
    for (const BoxResult& box : estimate.boxes)
        for (const EnclosureResult& enclosure : box.enclosures) {
            if (!enclosure.height_mm) return std::nullopt;
            highest = std::max(highest, *enclosure.height_mm);
        }
    return highest;
}

Figure heat_of(const Estimate& estimate) {
    double sum = 0;
    for (const BoxResult& box : estimate.boxes) sum += box.heat.inside.value * box.quantity;
    return sum;
}

Figure less(const Figure& base, const Figure& other) {
    return base && other ? Figure(*other - *base) : std::nullopt;
}

Hours hours_of(const Estimate& estimate) {
    Hours sum;
    for (const LabourLine& line : estimate.labour) sum += line.hours;
    return sum;
}

std::optional<int> lead_of(const Estimate& estimate) {
    std::optional<int> longest;
    for (const BillLine& line : estimate.bill)
        if (line.lead_days) longest = std::max(longest.value_or(0), *line.lead_days);
    return longest;
}

int kinds_of(const Estimate& estimate) {
    std::set<std::string> parts;
    for (const BillLine& line : estimate.bill)
        if (!line.part.empty()) parts.insert(line.part);
    return static_cast<int>(parts.size());
}

} // namespace

Difference difference_of(const Estimate& base, const Estimate& other) {
    Difference difference;
    difference.price = other.price->price - base.price->price;
    difference.width_mm = less(width_of(base), width_of(other));
    difference.height_mm = less(height_of(base), height_of(other));
    difference.inside_w = less(heat_of(base), heat_of(other));
    difference.hours = hours_of(other) - hours_of(base);
    const auto before = lead_of(base), after = lead_of(other);
    if (before && after) difference.lead_days = *after - *before;
    difference.part_kinds = kinds_of(other) - kinds_of(base);
    return difference;
}

bool box_built(const Estimate& estimate, const std::string& box) {
    const std::pair<std::string, std::string> of_box("box", box);
    return std::none_of(estimate.findings.begin(), estimate.findings.end(),
                        [&](const Finding& finding) {
                            const auto& params = finding.params;
                            return finding.code == "UNBUILDABLE" &&
                                   std::find(params.begin(), params.end(), of_box) != params.end();
                        });
}

std::string limits_of(const Estimate& estimate) {
    std::string text;
    for (const Finding& finding : estimate.findings) {
        if (finding.code != "UNBUILDABLE") continue;
        for (const auto& [name, value] : finding.params)
            if (name == "limits") text += (text.empty() ? "" : "; ") + value;
    }
    return text;
}

} // namespace backplate
