#include "pricing/mix/pack_devices.h"

#include <algorithm>

namespace backplate {
namespace {

constexpr int most_steps = 20'000; ///< of the search for the fewest devices that are split
constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

/// By device the place that holds it whole, or nowhere.
using Wholes = std::vector<std::size_t>;

/// The largest device first, each into every place that holds it, the fullest first, or nowhere.
class FewestSplit {
public:
    FewestSplit(const std::vector<int>& devices, const std::vector<int>& places)
        : devices_(devices), free_(places), wholes_(devices.size(), nowhere), best_(wholes_) {
        for (std::size_t i = 0; i < devices.size(); ++i)
            if (devices[i] > 1) order_.push_back(i);
        std::stable_sort(order_.begin(), order_.end(),
                         [&](std::size_t a, std::size_t b) { return devices[a] > devices[b]; });
    }

    Wholes run() {
        fewest_ = order_.size() + 1;
        place(0, 0);
        return best_;
    }

private:
    void place(std::size_t at, std::size_t split) {
        if (split >= fewest_) return;
        if (at == order_.size()) {
            fewest_ = split;
            best_ = wholes_;
            return;
        }
        const std::size_t device = order_[at];
        int before = 0; // places as full as one that was tried bring nothing new
        for (int steps = 0; steps < static_cast<int>(free_.size()); ++steps) {
            const std::size_t next = fullest(devices_[device], before);
            if (next == nowhere || (++steps_ > most_steps && fewest_ <= order_.size())) break;
            before = free_[next];
            free_[next] -= devices_[device];
            wholes_[device] = next;
            place(at + 1, split);
            free_[next] += devices_[device];
        }
        wholes_[device] = nowhere;
        place(at + 1, split + 1);
    }

    /// The first of the places with the least room that hold the points and have more than
    /// `before`.
    std::size_t fullest(int points, int before) const {
        std::size_t best = nowhere;
        for (std::size_t i = 0; i < free_.size(); ++i)
            if (free_[i] >= points && free_[i] > before &&
                (best == nowhere || free_[i] < free_[best]))
                best = i;
        return best;
    }

    const std::vector<int>& devices_;
    std::vector<int> free_;
    Wholes wholes_, best_;
    std::vector<std::size_t> order_;
    std::size_t fewest_ = 0;
    int steps_ = 0;
};

/// Fills the places: whole devices first, then what is split, then single points.
class Filling {
public:
    Filling(const std::vector<int>& devices, const std::vector<int>& places)
        : devices_(devices), free_(places), packing_(devices.size()) {}

    Packing run(const Wholes& wholes) {
        for (std::size_t device = 0; device < devices_.size(); ++device)
            if (wholes[device] != nowhere) put(device, wholes[device], devices_[device]);
        for (std::size_t device = 0; device < devices_.size(); ++device)
            if (devices_[device] > 1 && wholes[device] == nowhere) in_pieces(device);
        for (std::size_t device = 0; device < devices_.size(); ++device)
            if (devices_[device] == 1) single(device);
        return std::move(packing_);
    }

private:
    void put(std::size_t device, std::size_t place, int points) {
        packing_[device].push_back({place, points});
        free_[place] -= points;
    }

    void in_pieces(std::size_t device) {
        for (int left = devices_[device]; left > 0;) {
            const auto most = std::max_element(free_.begin(), free_.end());
            if (most == free_.end() || *most <= 0) return;
            const int points = std::min(left, *most);
            put(device, static_cast<std::size_t>(most - free_.begin()), points);
            left -= points;
        }
    }

    void single(std::size_t device) {
        const auto open =
            std::find_if(free_.begin(), free_.end(), [](int left) { return left > 0; });
        if (open != free_.end()) put(device, static_cast<std::size_t>(open - free_.begin()), 1);
    }

    const std::vector<int>& devices_;
    std::vector<int> free_;
    Packing packing_;
};

} // namespace

std::size_t split_devices(const Packing& packing) {
    return static_cast<std::size_t>(
        std::count_if(packing.begin(), packing.end(),
                      [](const std::vector<Piece>& pieces) { return pieces.size() > 1; }));
}

Packing pack_devices(const std::vector<int>& devices, const std::vector<int>& places) {
    return Filling(devices, places).run(FewestSplit(devices, places).run());
}

} // namespace backplate
