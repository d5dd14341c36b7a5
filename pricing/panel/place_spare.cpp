#include "pricing/panel/place_spare.h"

#include <algorithm>

namespace backplate {
namespace {

using Channels = std::map<std::string, int>;

/// Channels fitted beyond the requirement, by the signal they count to.
Channels idle_channels(const PanelChoice& choice) {
    Channels idle;
    const Demand& demand = choice.search->facts.demand;
    for (const ModuleUse& use : choice.design->arrangement->member.uses)
        for (std::size_t mix = 0; mix < use.extra.size(); ++mix)
            idle[demand.lines[demand.mix[mix].lines.front()].points->signal] += use.extra[mix];
    return idle;
}

bool uses(const Box& box, const std::string& signal) {
    return std::any_of(box.points.begin(), box.points.end(), [&](const PointLine& points) {
        return points.signal == signal && points.count > 0;
    });
}

int up(int channels, int boxes) { return (channels + boxes - 1) / boxes; }

class SparePlacing {
public:
    SparePlacing(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                 Work& work)
        : request_(request), book_(book), rules_(rules), work_(work), rest_(spare_of_job(request)),
          placed_(request.boxes.size(), Channels{}) {}

    std::vector<PanelChoice> run() {
        std::vector<PanelChoice> bare = choose_boxes(request_, book_, rules_, placed_, work_);
        for (const PanelChoice& choice : bare) {
            if (!choice.design) return bare;
            cost_.push_back(choice.design->direct_cost);
        }
        const std::vector<std::int64_t> without = cost_;
        const Channels asked = rest_;
        for (const Box& box : request_.boxes) fill_idle(box, bare[box.index]);
        for (const auto& [signal, channels] : asked)
            if (rest_[signal] > 0) place_rest(signal, bare);
        auto choices = choose_boxes(request_, book_, rules_, placed_, work_);
        for (PanelChoice& choice : choices) bound(choice, asked, without);
        return choices;
    }

private:
    void place(const Box& box, const std::string& signal, int channels) {
        (*placed_[box.index])[signal] += channels;
        rest_[signal] -= channels * box.quantity;
    }

    void fill_idle(const Box& box, const PanelChoice& choice) {
        for (const auto& [signal, channels] : idle_channels(choice)) {
            const int asked = up(std::max(0, rest_[signal]), box.quantity);
            if (uses(box, signal)) place(box, signal, std::min(channels, asked));
        }
    }

    void place_rest(const std::string& signal, const std::vector<PanelChoice>& bare) {
        const Box* best = nullptr;
        std::int64_t least = 0, new_cost = 0;
        for (const Box& box : request_.boxes) {
            if (!uses(box, signal)) continue;
            JobShare share = bare[box.index].search->facts.share;
            share.platform = bare[box.index].platform;
            share.spare = placed_[box.index];
            (*share.spare)[signal] += up(rest_[signal], box.quantity);
            const PanelChoice choice = choose_panel(request_, box, book_, rules_, work_, share);
            if (!choice.design) continue;
            const std::int64_t more = choice.design->direct_cost - cost_[box.index];
            if (best && more >= least) continue;
            best = &box;
            least = more;
            new_cost = choice.design->direct_cost;
        }
        if (!best) best = first_with(signal); // which then says why it cannot
        cost_[best->index] = new_cost;
        place(*best, signal, up(rest_[signal], best->quantity));
    }

    const Box* first_with(const std::string& signal) const {
        for (const Box& box : request_.boxes)
            if (uses(box, signal)) return &box;
        return &request_.boxes.front();
    }

    void bound(PanelChoice& choice, const Channels& asked,
               const std::vector<std::int64_t>& without) const {
        const Box& box = *choice.search->facts.box;
        for (const auto& [signal, channels] : asked) {
            if (channels == 0 || !uses(box, signal)) continue;
            const auto boxes =
                std::count_if(request_.boxes.begin(), request_.boxes.end(),
                              [&, name = signal](const Box& other) { return uses(other, name); });
            if (boxes < 2) continue;
            choice.proven = false;
            choice.lower_bound = without[box.index];
        }
    }

    const BidRequest& request_;
    const PriceBook& book_;
    const RuleBook& rules_;
    Work& work_;
    Channels rest_;
    std::vector<PlacedSpare> placed_;
    std::vector<std::int64_t> cost_;
};

} // namespace

std::vector<PanelChoice> with_placed_spare(const BidRequest& request, const PriceBook& book,
                                           const RuleBook& rules, Work& work) {
    return SparePlacing(request, book, rules, work).run();
}

} // namespace backplate
