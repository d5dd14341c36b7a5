#include <algorithm>

#include "pricing/mix/bare_mix.h"

namespace backplate {
namespace {

using Sums = std::array<std::int64_t, 4>;

/// A box that holds every vector below its limits; no limit: none in that sum.
using Box4 = BareLimits;

bool inside(const Sums& sums, const Box4& box) {
    for (std::size_t k = 0; k < sums.size(); ++k)
        if (box[k] && sums[k] >= *box[k]) return false;
    return true;
}

bool holds(const Box4& outer, const Box4& inner) {
    for (std::size_t k = 0; k < outer.size(); ++k)
        if (outer[k] && (!inner[k] || *inner[k] > *outer[k])) return false;
    return true;
}

/// The boxes that hold the vector give way to four each, which end at one of its sums.
void split(std::vector<Box4>& boxes, const Sums& found) {
    std::vector<Box4> kept, made;
    for (const Box4& box : boxes) {
        if (!inside(found, box)) {
            kept.push_back(box);
            continue;
        }
        for (std::size_t k = 0; k < found.size(); ++k) {
            made.push_back(box);
            made.back()[k] = found[k];
        }
    }
    for (std::size_t i = 0; i < made.size(); ++i) {
        bool contained = false;
        for (const Box4& box : kept) contained = contained || holds(box, made[i]);
        for (std::size_t k = 0; k < made.size() && !contained; ++k)
            contained = k != i && holds(made[k], made[i]) && (k < i || !holds(made[i], made[k]));
        if (!contained) kept.push_back(made[i]);
    }
    boxes = std::move(kept);
}

} // namespace

std::optional<std::vector<Sums>> tradeoffs(const BareMix& mix, const BareFamily& family,
                                           Work& work) {
    std::vector<Sums> front;
    std::vector<Box4> boxes{Box4{}};
    while (!boxes.empty()) {
        const Box4 box = boxes.back();
        BareLimits limits;
        for (std::size_t k = 0; k < box.size(); ++k)
            if (box[k]) limits[k] = *box[k] - 1;
        const BareAnswer answer = least_cost(mix, family, work, limits, {1, 1, 1, 1});
        if (!answer.proven) return std::nullopt;
        if (!answer.feasible) {
            boxes.pop_back();
            continue;
        }
        front.push_back(answer.sums);
        split(boxes, answer.sums);
    }
    std::sort(front.begin(), front.end());
    return front;
}

} // namespace backplate
