#include "pricing/panel/choose_boxes.h"

#include <algorithm>
#include <map>
#include <set>

#include "pricing/panel/place_spare.h"

namespace backplate {
namespace {

void add_limits(std::vector<std::string>& known, const std::vector<std::string>& more) {
    for (const std::string& limit : more)
        if (std::find(known.begin(), known.end(), limit) == known.end()) known.push_back(limit);
}

int stations_of(const PanelChoice& choice) {
    return static_cast<int>(choice.design->arrangement->stations.size());
}

/// One controller with the boxes that it leads.
class SystemSearch {
public:
    SystemSearch(const BidRequest& request, const Box& own, const PriceBook& book,
                 const RuleBook& rules, const std::vector<PlacedSpare>& spare, Work& work)
        : request_(request), own_(own), book_(book), rules_(rules), spare_(spare), work_(work) {
        const std::vector<std::size_t> places = system_of(request, own);
        for (std::size_t i = 1; i < places.size(); ++i) led_.push_back(&request.boxes[places[i]]);
    }

    void run(std::vector<PanelChoice>& out) {
        if (led_.empty()) {
            out[own_.index] = own_panel("", 0);
            return;
        }
        for (const std::string& platform : platforms())
            if (!found_ || work_.wanted.cheapest) try_platform(platform);
        if (!found_) name_limits();
        out[own_.index] = std::move(best_.own);
        for (std::size_t i = 0; i < led_.size(); ++i) out[led_[i]->index] = std::move(best_.led[i]);
    }

private:
    /// The panels of a system on one platform.
    struct Panels {
        PanelChoice own;
        std::vector<PanelChoice> led;
        std::int64_t cost = 0;
    };

    /// Those of the price book that every box of the system may have.
    std::set<std::string> platforms() const {
        std::set<std::string> names;
        for (const Part* part : book_.of_kind("controller")) {
            const auto allows = [&](const Box* box) {
                const auto& words = box->choices.platforms;
                return words.empty() ||
                       std::find(words.begin(), words.end(), part->platform) != words.end();
            };
            if (may_choose(*part, own_, request_) && allows(&own_) &&
                std::all_of(led_.begin(), led_.end(), allows))
                names.insert(part->platform);
        }
        return names;
    }

    PanelChoice led_panel(std::size_t place, const std::string& platform,
                          std::optional<int> most_stations) {
        return panel(*led_[place], {platform, 0, most_stations, {}});
    }

    PanelChoice own_panel(const std::string& platform, int heads_elsewhere) {
        return panel(own_, {platform, heads_elsewhere, std::nullopt, {}});
    }

    PanelChoice panel(const Box& box, JobShare share) {
        if (!spare_.empty()) share.spare = spare_[box.index];
        return choose_panel(request_, box, book_, rules_, work_, share);
    }

    int heads_of(const Panels& panels) const {
        int heads = 0;
        for (std::size_t i = 0; i < led_.size(); ++i)
            heads += led_[i]->per_system * stations_of(panels.led[i]);
        return heads;
    }

    void try_platform(const std::string& platform) {
        Panels panels;
        bool built = true;
        for (std::size_t i = 0; i < led_.size(); ++i) {
            panels.led.push_back(led_panel(i, platform, std::nullopt));
            built = note(panels.led[i], *led_[i]) && built;
            if (built) panels.cost += panels.led[i].design->direct_cost;
        }
        if (found_ && (!built || panels.cost >= best_.cost)) return;
        if (built)
            fit_own(panels, platform);
        else
            panels.own = own_panel(platform, 0);
        built = note(panels.own, own_) && built;
        if (built) panels.cost += panels.own.design->direct_cost;
        const bool better = built && (!found_ || panels.cost < best_.cost);
        if (better || !best_.own.search) best_ = std::move(panels);
        found_ = found_ || built;
    }

    /// The box with the controller, for the stations that the others need; they give up heads
    /// until a controller leads what is left.
    void fit_own(Panels& panels, const std::string& platform) {
        panels.own = own_panel(platform, heads_of(panels));
        while (!panels.own.design && give_up_head(panels, platform))
            panels.own = own_panel(platform, heads_of(panels));
        int fewest = 0;
        for (const Box* box : led_) fewest += box->per_system;
        if (!panels.own.design || heads_of(panels) == fewest) return;
        const PanelChoice free = own_panel(platform, fewest);
        if (!free.design || free.design->direct_cost >= panels.own.design->direct_cost) return;
        panels.own.proven = false;
        panels.own.lower_bound = free.design->direct_cost;
    }

    /// One head less where it costs least; false where no box can spare one.
    bool give_up_head(Panels& panels, const std::string& platform) {
        std::optional<PanelChoice> cheapest;
        std::size_t place = 0;
        std::int64_t least = 0;
        for (std::size_t i = 0; i < led_.size(); ++i) {
            const int stations = stations_of(panels.led[i]);
            if (stations == 1) continue;
            PanelChoice fewer = led_panel(i, platform, stations - 1);
            if (!fewer.design) continue;
            const std::int64_t more = fewer.design->direct_cost - panels.led[i].design->direct_cost;
            if (cheapest && more >= least) continue;
            cheapest = std::move(fewer);
            place = i;
            least = more;
        }
        if (!cheapest) return false;
        cheapest->proven = false;
        panels.cost += least;
        panels.led[place] = std::move(*cheapest);
        return true;
    }

    /// Keeps what binds a box; true where it was built.
    bool note(const PanelChoice& choice, const Box& box) {
        add_limits(limits_[box.index], choice.limits);
        return choice.design.has_value();
    }

    void name_limits() {
        if (!best_.own.search) { // no platform at all
            best_.own = own_panel("", 0);
            for (std::size_t i = 0; i < led_.size(); ++i)
                best_.led.push_back(led_panel(i, "", std::nullopt));
            if (note(best_.own, own_))
                limits_[own_.index].push_back("no platform that all boxes of the system may have");
        }
        const auto close = [&](PanelChoice& choice, const Box& box) {
            choice.design.reset();
            choice.limits = limits_[box.index];
        };
        close(best_.own, own_);
        for (std::size_t i = 0; i < led_.size(); ++i) close(best_.led[i], *led_[i]);
    }

    const BidRequest& request_;
    const Box& own_;
    const PriceBook& book_;
    const RuleBook& rules_;
    const std::vector<PlacedSpare>& spare_;
    Work& work_;
    std::vector<const Box*> led_;
    bool found_ = false; ///< best_ holds a design of every box
    Panels best_;
    std::map<std::size_t, std::vector<std::string>> limits_;
};

} // namespace

std::vector<std::size_t> system_of(const BidRequest& request, const Box& own) {
    std::vector<std::size_t> places{own.index};
    for (const Box& box : request.boxes)
        if (box.controlled_by == ControlledBy::other_box && box.controller_box == own.index)
            places.push_back(box.index);
    return places;
}

std::vector<PanelChoice> choose_boxes(const BidRequest& request, const PriceBook& book,
                                      const RuleBook& rules, const std::vector<PlacedSpare>& spare,
                                      Work& work) {
    std::vector<PanelChoice> choices(request.boxes.size());
    for (const Box& box : request.boxes)
        if (box.controlled_by != ControlledBy::other_box)
            SystemSearch(request, box, book, rules, spare, work).run(choices);
    return choices;
}

std::vector<PanelChoice> choose_boxes(const BidRequest& request, const PriceBook& book,
                                      const RuleBook& rules, Work& work) {
    if (counts_over_job(request.spare)) return with_placed_spare(request, book, rules, work);
    return choose_boxes(request, book, rules, {}, work);
}

std::vector<PanelChoice> choose_system(const BidRequest& request, const Box& own,
                                       const PriceBook& book, const RuleBook& rules, Work& work) {
    std::vector<PanelChoice> choices(request.boxes.size());
    const std::vector<PlacedSpare> no_spare;
    SystemSearch(request, own, book, rules, no_spare, work).run(choices);
    return choices;
}

} // namespace backplate
