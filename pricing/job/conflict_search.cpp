#include "pricing/job/conflict_search.h"

#include <algorithm>
#include <map>

namespace backplate {
namespace {

using Places = std::vector<std::size_t>;

/// The smallest set that has a member of each of `sets`; of equal ones the first found.
class HittingSet {
public:
    explicit HittingSet(const std::vector<Places>& sets) : sets_(sets) {}

    Places smallest() {
        for (std::size_t size = 0;; ++size)
            if (fill(size)) return chosen_;
    }

private:
    bool fill(std::size_t left) {
        const auto missed = std::find_if(sets_.begin(), sets_.end(), [&](const Places& set) {
            return std::none_of(set.begin(), set.end(), [&](std::size_t each) {
                return std::find(chosen_.begin(), chosen_.end(), each) != chosen_.end();
            });
        });
        if (missed == sets_.end()) return true;
        if (left == 0) return false;
        for (const std::size_t each : *missed) {
            chosen_.push_back(each);
            if (fill(left - 1)) return true;
            chosen_.pop_back();
        }
        return false;
    }

    const std::vector<Places>& sets_;
    Places chosen_;
};

class Search {
public:
    Search(std::size_t limits, const std::function<bool(const Imposed&)>& builds, int most_runs)
        : limits_(limits), builds_(builds), most_runs_(most_runs) {}

    Conflict run() {
        found_.without_any = !asks(Imposed(limits_, false));
        if (!found_.without_any) {
            lift_alone(0, limits_);
            for (const Places& one : give_up_) found_.alone.push_back(one.front());
            if (!found_.alone.empty() && !asks(only(found_.alone)))
                settle(found_.alone);
            else
                hit_sets();
        }
        return found_;
    }

private:
    bool asks(const Imposed& imposed) {
        const auto known = asked_.find(imposed);
        if (known != asked_.end()) return known->second;
        ++found_.runs;
        return asked_[imposed] = builds_(imposed);
    }

    Imposed only(const Places& places) const {
        Imposed imposed(limits_, false);
        for (const std::size_t each : places) imposed[each] = true;
        return imposed;
    }

    void settle(Places together) {
        std::sort(together.begin(), together.end());
        found_.together = std::move(together);
        found_.smallest = true;
    }

    /// Sets to give up of one limit each, from `first` up to `last`: where lifting all of these is
    /// not enough, none of them is.
    void lift_alone(std::size_t first, std::size_t last) {
        if (first == last) return;
        Imposed imposed(limits_, true);
        std::fill(imposed.begin() + static_cast<std::ptrdiff_t>(first),
                  imposed.begin() + static_cast<std::ptrdiff_t>(last), false);
        if (!asks(imposed)) return;
        if (last - first == 1) return add_give_up({first});
        const std::size_t middle = first + (last - first) / 2;
        lift_alone(first, middle);
        lift_alone(middle, last);
    }

    void add_give_up(Places lifted) {
        if (give_up_.empty() || lifted.size() < found_.give_up.size()) found_.give_up = lifted;
        give_up_.push_back(std::move(lifted));
    }

    void hit_sets() {
        while (found_.runs < most_runs_) {
            const Places chosen = HittingSet(give_up_).smallest();
            Imposed imposed = only(chosen);
            if (!asks(imposed)) return settle(chosen);
            Places lifted;
            for (std::size_t each = 0; each < limits_; ++each) {
                if (imposed[each]) continue;
                imposed[each] = true;
                if (asks(imposed)) continue;
                imposed[each] = false;
                lifted.push_back(each);
            }
            if (lifted.empty()) break; // all hold and it builds: no conflict
            add_give_up(std::move(lifted));
        }
        drop_idle();
    }

    void drop_idle() {
        Imposed imposed(limits_, true);
        for (std::size_t each = limits_; each-- > 0;) {
            imposed[each] = false;
            if (asks(imposed)) imposed[each] = true;
        }
        for (std::size_t each = 0; each < limits_; ++each)
            if (imposed[each]) found_.together.push_back(each);
    }

    std::size_t limits_;
    const std::function<bool(const Imposed&)>& builds_;
    int most_runs_;
    Conflict found_;
    std::map<Imposed, bool> asked_;
    std::vector<Places> give_up_;
};

} // namespace

Conflict smallest_conflict(std::size_t limits, const std::function<bool(const Imposed&)>& builds,
                           int most_runs) {
    return Search(limits, builds, most_runs).run();
}

std::optional<int> fewest_parts(int most, const std::function<bool(int)>& builds) {
    if (most < 2 || !builds(most)) return std::nullopt;
    int too_few = 1, enough = std::min(2, most);
    while (enough < most && !builds(enough)) {
        too_few = enough;
        enough = enough > most / 2 ? most : 2 * enough;
    }
    while (enough - too_few > 1) {
        const int middle = too_few + (enough - too_few) / 2;
        (builds(middle) ? enough : too_few) = middle;
    }
    return enough;
}

} // namespace backplate
