#include "pricing/takeoff/compare_lists.h"

#include <algorithm>
#include <optional>
#include <unordered_map>

#include "pricing/takeoff/plain_text.h"

namespace backplate {
namespace {

using Is = PointChange::Is;

/// Points of a list that wait for their partner in the other one.
struct Open {
    TakenPoint point;
    int left = 0;
};

std::string name_of(const TakenPoint& point) {
    const std::string& name = point.tag.empty() ? point.text : point.tag;
    return squeeze(name).text;
}

std::string name_and_signal(const TakenPoint& point) {
    return name_of(point) + '\n' + point.signal;
}

std::string name_and_box(const TakenPoint& point) {
    return name_of(point) + '\n' + lower_ascii(point.panel);
}

std::string all_of(const TakenPoint& point) {
    return name_and_signal(point) + '\n' + lower_ascii(point.panel);
}

std::vector<Open> open_points(const Takeoff& takeoff) {
    std::vector<Open> open;
    for (const TakenPoint& point : takeoff.points) open.push_back({point, point.count});
    return open;
}

class Comparer {
public:
    Comparer(const Takeoff& before, const Takeoff& after)
        : old_(open_points(before)), fresh_(open_points(after)) {}

    /// The nearest partners first, over the whole list, so that none is taken away.
    std::vector<PointChange> compare() {
        pair(std::nullopt, all_of);
        pair(Is::moved, name_and_signal);
        pair(Is::changed, name_and_box);
        pair(Is::changed, name_of);
        for (const Open& open : fresh_)
            if (open.left > 0) changes_.push_back({Is::added, open.left, {}, open.point});
        std::ranges::stable_sort(changes_, {}, [](const PointChange& change) {
            return std::pair(change.after.sheet, change.after.row);
        });
        for (const Open& open : old_)
            if (open.left > 0) changes_.push_back({Is::removed, open.left, open.point, {}});
        return std::move(changes_);
    }

private:
    using KeyOf = std::string (*)(const TakenPoint&);

    /// Pairs what is left of equal keys; equal points leave no trace, points without a name have
    /// no other partners.
    void pair(std::optional<Is> is, KeyOf key_of) {
        std::unordered_map<std::string, std::vector<Open*>> waiting; ///< the first one last
        for (auto old = old_.rbegin(); old != old_.rend(); ++old)
            if (old->left > 0 && (!is || !name_of(old->point).empty()))
                waiting[key_of(old->point)].push_back(&*old);
        for (Open& fresh : fresh_) {
            if (fresh.left == 0) continue;
            const auto found = waiting.find(key_of(fresh.point));
            if (found == waiting.end()) continue;
            auto& partners = found->second;
            while (fresh.left > 0 && !partners.empty()) {
                Open& old = *partners.back();
                const int both = std::min(old.left, fresh.left);
                old.left -= both;
                fresh.left -= both;
                if (is) changes_.push_back({*is, both, old.point, fresh.point});
                if (old.left == 0) partners.pop_back();
            }
        }
    }

    std::vector<Open> old_, fresh_;
    std::vector<PointChange> changes_;
};

} // namespace

int ListChanges::count_of(Is is) const {
    int count = 0;
    for (const PointChange& change : changes)
        if (change.is == is) count += change.count;
    return count;
}

ListChanges compare_lists(const Takeoff& before, const Takeoff& after) {
    return {Comparer(before, after).compare(), before.panels(), after.panels()};
}

} // namespace backplate
