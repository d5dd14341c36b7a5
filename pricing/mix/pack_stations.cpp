#include "pricing/mix/pack_stations.h"

#include <algorithm>
#include <numeric>
#include <optional>

namespace backplate {
namespace {

/// Items alike.
struct Kind {
    PackItem item;
    std::vector<std::size_t> members;
};

std::vector<Kind> kinds_of(const std::vector<PackItem>& items) {
    std::vector<std::size_t> order(items.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return items[a].bus != items[b].bus ? items[a].bus > items[b].bus
                                            : items[a].places > items[b].places;
    });
    std::vector<Kind> kinds;
    for (const std::size_t i : order) {
        if (kinds.empty() || !(kinds.back().item == items[i])) kinds.push_back({items[i], {}});
        kinds.back().members.push_back(i);
    }
    return kinds;
}

/// Tries every way, kind after kind, segment after segment.
class PackSearch {
public:
    PackSearch(std::vector<OpenStation> stations, std::vector<Kind> kinds, std::int64_t& steps,
               std::vector<PackedAt>& at)
        : stations_(std::move(stations)), kinds_(std::move(kinds)), steps_(steps), at_(at) {
        for (std::size_t s = 0; s < stations_.size(); ++s)
            for (std::size_t g = 0; g < stations_[s].segments.size(); ++g) bins_.push_back({s, g});
        counts_.assign(kinds_.size(), std::vector<int>(bins_.size(), 0));
    }

    Packing run() {
        if (place(0, 0, 0)) {
            note();
            return Packing::found;
        }
        return steps_ > 0 ? Packing::impossible : Packing::unknown;
    }

private:
    /// The rest of a kind, `placed` of it standing already, from a bin on.
    bool place(std::size_t kind, std::size_t bin, int placed) {
        if (--steps_ <= 0) return false;
        if (kind == kinds_.size()) return true;
        const int left = static_cast<int>(kinds_[kind].members.size()) - placed;
        if (left == 0) return rest_fits(kind + 1) && place(kind + 1, 0, 0);
        if (bin == bins_.size()) return false;
        const PackItem& item = kinds_[kind].item;
        const PackedAt& at = bins_[bin];
        int most = left;
        if (item.places > 0) most = std::min(most, stations_[at.station].places / item.places);
        if (item.bus > 0)
            most = static_cast<int>(std::min<std::int64_t>(
                most, stations_[at.station].segments[at.segment] / item.bus));
        if (const auto before = alike(kind, bin)) most = std::min(most, *before);
        for (int count = std::max(0, most); count >= 0; --count) {
            take(kind, bin, count);
            if (place(kind, bin + 1, placed + count)) return true;
            take(kind, bin, -count);
            if (steps_ <= 0) return false;
        }
        return false;
    }

    void take(std::size_t kind, std::size_t bin, int count) {
        OpenStation& station = stations_[bins_[bin].station];
        station.places -= count * kinds_[kind].item.places;
        station.segments[bins_[bin].segment] -= count * kinds_[kind].item.bus;
        counts_[kind][bin] += count;
    }

    /// Of two stations that were alike before this kind the first takes no less of it.
    std::optional<int> alike(std::size_t kind, std::size_t bin) const {
        const PackedAt& at = bins_[bin];
        if (at.segment > 0 || at.station == 0 || stations_[at.station].segments.size() > 1 ||
            stations_[at.station - 1].segments.size() > 1)
            return std::nullopt;
        const int before = counts_[kind][bin - 1];
        const PackItem& item = kinds_[kind].item;
        const OpenStation &own = stations_[at.station], &other = stations_[at.station - 1];
        const bool same = other.places + before * item.places == own.places &&
                          other.segments[0] + before * item.bus == own.segments[0];
        return same ? std::optional(before) : std::nullopt;
    }

    /// The sums of what is left allow the kinds from `first` on.
    bool rest_fits(std::size_t first) const {
        std::int64_t places = 0, bus = 0;
        for (std::size_t k = first; k < kinds_.size(); ++k) {
            const auto count = static_cast<std::int64_t>(kinds_[k].members.size());
            places += count * kinds_[k].item.places;
            bus += count * kinds_[k].item.bus;
        }
        for (const OpenStation& station : stations_) {
            places -= station.places;
            bus -=
                std::accumulate(station.segments.begin(), station.segments.end(), std::int64_t{0});
        }
        return places <= 0 && bus <= 0;
    }

    void note() const {
        for (std::size_t k = 0; k < kinds_.size(); ++k) {
            std::size_t member = 0;
            for (std::size_t bin = 0; bin < bins_.size(); ++bin)
                for (int n = 0; n < counts_[k][bin]; ++n)
                    at_[kinds_[k].members[member++]] = bins_[bin];
        }
    }

    std::vector<OpenStation> stations_;
    std::vector<Kind> kinds_;
    std::int64_t& steps_;
    std::vector<PackedAt>& at_;
    std::vector<PackedAt> bins_;
    std::vector<std::vector<int>> counts_; ///< by kind and bin
};

} // namespace

Packing pack_stations(const std::vector<OpenStation>& stations, const std::vector<PackItem>& items,
                      std::int64_t& steps, std::vector<PackedAt>& at) {
    at.assign(items.size(), {});
    for (const OpenStation& station : stations)
        if (station.places < 0) return Packing::impossible;
    return PackSearch(stations, kinds_of(items), steps, at).run();
}

} // namespace backplate
