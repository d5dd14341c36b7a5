#include "pricing/job/alternatives.h"

#include <algorithm>

#include "pricing/job/alternative_trials.h"
#include "pricing/job/parting_search.h"
#include "pricing/panel/choose_boxes.h"
#include "pricing/request/check_request.h"
#include "pricing/request/options.h"

namespace backplate {
namespace {

bool same_bill(const std::vector<BillLine>& a, const std::vector<BillLine>& b) {
    return std::equal(
        a.begin(), a.end(), b.begin(), b.end(), [](const BillLine& one, const BillLine& other) {
            return one.box == other.box && one.part == other.part &&
                   one.description == other.description && one.quantity == other.quantity;
        });
}

/// Costs no more, or is smaller, cooler, quicker to get, less work or of fewer kinds of parts.
bool better_in_something(const Difference& difference) {
    const auto less = [](const std::optional<double>& figure) { return figure && *figure < 0; };
    return difference.price <= Money() || less(difference.width_mm) || less(difference.height_mm) ||
           less(difference.inside_w) || (difference.lead_days && *difference.lead_days < 0) ||
           difference.hours < Hours() || difference.part_kinds < 0;
}

/// Volume of the enclosures of all boxes of the kind, mm³; 0 where a size is unknown.
double volume_of(const BoxResult& box) {
    double sum = 0;
    for (const EnclosureResult& enclosure : box.enclosures)
        sum += enclosure.width_mm.value_or(0) * enclosure.height_mm.value_or(0) *
               enclosure.depth_mm.value_or(0) * enclosure.quantity * box.quantity;
    return sum;
}

double volume_of(const std::vector<BoxResult>& boxes) {
    double sum = 0;
    for (const BoxResult& box : boxes) sum += volume_of(box);
    return sum;
}

/// One trial after the other against the base and what was found before.
class Search {
public:
    Search(Alternatives& result, const PriceBook& book, const RuleBook& rules, Work& work,
           const FoundSoFar& found)
        : result_(result), book_(book), rules_(rules), work_(work), found_(found),
          request_(changeable(result.base.request)) {}

    void run(const Trial& trial) {
        std::string fault;
        std::optional<Estimate> other = estimate(trial.change, fault);
        if (!other) return drop(trial, "not a sound request: " + fault);
        judge(trial, std::move(*other));
    }

    /// The smallest size of the largest box in which the job can be built.
    void run_smallest() {
        const Estimate& base = result_.base;
        const std::size_t box = largest_box(base);
        Trial trial{"Smallest box for " + base.boxes[box].name,
                    "smallest size in which a panel can be built",
                    {},
                    true};
        const std::vector<SmallerSize> sizes = smaller_sizes(base, box, book_);
        auto size = std::partition_point(sizes.begin(), sizes.end(), [&](const SmallerSize& each) {
            return !builds(each.volume);
        });
        for (; size != sizes.end(); ++size) { // several of one volume
            std::string fault;
            std::optional<Estimate> other = estimate(size->site, fault);
            if (!other || !other->buildable) continue;
            trial.change = size->site;
            return judge(trial, std::move(*other));
        }
        drop(trial, "no smaller size of the price book holds a panel", "base");
    }

    /// Without the part that takes longest, again and again while that brings the delivery nearer.
    void run_quickest() {
        run_leaving_out(
            "Shortest delivery", "without what takes longest: ",
            "no other part in the place of the slowest comes sooner",
            [](const Estimate& estimate) { return estimate.critical_part; },
            [](const Difference& difference) -> double {
                return difference.lead_days.value_or(0);
            });
    }

    /// Without the warmest module, again and again while that makes the boxes cooler.
    void run_coolest() {
        run_leaving_out(
            "Cooler modules",
            "without the warmest: ", "no other module in the place of the warmest is cooler",
            [this](const Estimate& estimate) { return warmest_module(estimate, book_); },
            [](const Difference& difference) { return difference.inside_w.value_or(0); });
    }

private:
    /// `next`: the part that an estimate is tried without; `gain`: less is better, from the base.
    template <class Next, class Gain>
    void run_leaving_out(const char* title, const char* why, const char* why_not, const Next& next,
                         const Gain& gain) {
        constexpr int most_steps = 8;
        std::vector<std::string> left_out;
        Trial best{title, "", {}};
        std::string part = next(result_.base);
        double gained = 0;
        for (int step = 0; step < most_steps && !part.empty(); ++step) {
            left_out.push_back(part);
            const Node change = without_parts(result_.base.request, left_out);
            std::string fault;
            const std::optional<Estimate> other = estimate(change, fault);
            if (!other || !other->buildable) break;
            const double found = gain(difference_of(result_.base, *other));
            if (found >= gained) break;
            gained = found;
            best.reason = why + joined(left_out);
            best.change = change;
            part = next(*other);
        }
        if (gained < 0) return run(best);
        drop(best, why_not, "base");
    }

    static std::string joined(const std::vector<std::string>& words) {
        std::string text;
        for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
        return text;
    }

    static std::size_t largest_box(const Estimate& base) {
        std::size_t largest = 0;
        double most = 0;
        for (std::size_t i = 0; i < base.boxes.size(); ++i) {
            const double volume = volume_of(base.boxes[i]);
            if (volume <= most) continue;
            most = volume;
            largest = i;
        }
        return largest;
    }

    /// Nothing, and the fault said, where the changed request is not sound.
    std::optional<Estimate> estimate(const Node& change, std::string& fault) const {
        const std::optional<BidRequest> changed = changed_by(change, fault);
        if (!changed) return std::nullopt;
        Work own = work_.beside({.range = false});
        std::optional<Estimate> found = price_once(*changed, book_, rules_, own);
        work_.add_trial(own);
        return found;
    }

    bool builds(const Node& change) const {
        std::string fault;
        const std::optional<BidRequest> changed = changed_by(change, fault);
        if (!changed) return false;
        Work own = work_.beside({false, false, false});
        const std::vector<PanelChoice> choices = choose_boxes(*changed, book_, rules_, own);
        work_.add_trial(own);
        return std::all_of(choices.begin(), choices.end(),
                           [](const PanelChoice& choice) { return choice.design.has_value(); });
    }

    std::optional<BidRequest> changed_by(const Node& change, std::string& fault) const {
        Node changed = request_;
        apply_change(changed, change);
        const CheckedRequest checked = check_request(changed, rules_, result_.base.request.date);
        if (!checked.request) fault = checked.faults.front().text;
        return checked.request;
    }

    void judge(const Trial& trial, Estimate other) {
        if (!other.buildable) return drop(trial, "cannot be built: " + limits_of(other));
        if (result_.base.buildable && same_bill(other.bill, result_.base.bill))
            return drop(trial, "is the base", "base");
        for (const Alternative& known : result_.alternatives)
            if (same_bill(other.bill, known.bill))
                return drop(trial, "is the same panel", known.title);
        std::optional<Difference> difference;
        if (result_.base.buildable) difference = difference_of(result_.base, other);
        if (!trial.always && difference && !better_in_something(*difference))
            return drop(trial, "costs " + difference->price.text(other.price->digits) + " " +
                                   other.price->currency + " more and is better in nothing");
        const bool proven =
            std::all_of(other.systems.begin(), other.systems.end(),
                        [](const SystemResult& system) { return system.proven_cheapest; });
        int headroom = 0;
        for (const PointResult& point : other.points) headroom += point.headroom;
        result_.alternatives.push_back({trial.title, trial.reason, trial.change, other.price->price,
                                        other.price->digits, difference, std::move(other.boxes),
                                        proven, headroom, std::move(other.bill)});
        if (found_) found_(result_);
    }

    void drop(const Trial& trial, std::string reason, std::string same_as = {}) {
        result_.dropped.push_back({trial.title, std::move(reason), std::move(same_as)});
    }

    Alternatives& result_;
    const PriceBook& book_;
    const RuleBook& rules_;
    Work& work_;
    const FoundSoFar& found_;
    Node request_;
};

/// Says of the alternative with the least of a measure that it has it, where the base has more and
/// no other as little.
template <class Measure>
void mark_least(std::vector<Alternative>& found, double base, const char* words,
                const Measure& measure) {
    Alternative* least = nullptr;
    bool alone = false;
    for (Alternative& each : found) {
        const std::optional<double> value = measure(each);
        if (!value || *value >= base) continue;
        const double best = least ? *measure(*least) : base;
        if (*value > best) continue;
        alone = *value < best || !least;
        least = &each;
    }
    if (least && alone) least->reason += std::string("; ") + words;
}

void mark_best(Alternatives& result) {
    auto& found = result.alternatives;
    if (!found.empty() && found.front().price >= result.base.price->price)
        found.front().reason += "; cheapest after the base";
    using Figure = std::optional<double>;
    mark_least(found, volume_of(result.base.boxes), "least volume of those tried",
               [](const Alternative& each) -> Figure {
                   const double volume = volume_of(each.boxes);
                   return volume > 0 ? Figure(volume) : std::nullopt;
               });
    mark_least(found, 0, "least heat of those tried",
               [](const Alternative& each) { return each.difference->inside_w; });
    mark_least(found, 0, "soonest of those tried", [](const Alternative& each) -> Figure {
        return each.difference->lead_days ? Figure(*each.difference->lead_days) : std::nullopt;
    });
    mark_least(found, 0, "fewest kinds of parts of those tried",
               [](const Alternative& each) -> Figure { return each.difference->part_kinds; });
    int headroom = 0;
    for (const PointResult& point : result.base.points) headroom += point.headroom;
    mark_least(found, -headroom, "most further points without a module of those tried",
               [](const Alternative& each) -> Figure { return -each.headroom; });
}

/// A difference below what the estimate itself may be off says little.
void mark_near(Alternatives& result) {
    const PriceResult& price = *result.base.price;
    const Money range = price.p80 - price.p50;
    for (Alternative& each : result.alternatives) {
        const Money apart = each.difference->price;
        if (apart <= range && -apart <= range)
            each.reason += "; nearer to the base than the estimate is sure of";
    }
}

} // namespace

Alternatives find_alternatives(const BidRequest& request, const PriceBook& book,
                               const RuleBook& rules, std::size_t most, Work& work,
                               const FoundSoFar& hand_out) {
    Alternatives result;
    result.base = price_job(request, book, rules, work);
    Search search(result, book, rules, work, hand_out);
    if (result.base.buildable) {
        for (const Trial& trial : trials_of(result.base, book)) search.run(trial);
        search.run_smallest();
        search.run_quickest();
        search.run_coolest();
    } else {
        for (const Trial& trial : parted_trials(result.base, book, rules, work)) search.run(trial);
    }
    auto& found = result.alternatives;
    std::stable_sort(found.begin(), found.end(), [](const Alternative& a, const Alternative& b) {
        return a.price != b.price ? a.price < b.price : a.title < b.title;
    });
    if (result.base.buildable) {
        mark_best(result);
        mark_near(result);
    }
    while (found.size() > most) {
        result.dropped.push_back({found.back().title, "dearer than the number asked", ""});
        found.pop_back();
    }
    return result;
}

} // namespace backplate
