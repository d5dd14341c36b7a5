#include "pricing/mix/pack_devices.h"

#include <algorithm>
#include <numeric>

namespace backplate {
namespace {

using Order = std::vector<std::size_t>;

class Pack {
public:
    Pack(const std::vector<int>& devices, const std::vector<int>& places)
        : devices_(devices), free_(places),
          packing_(devices.size(), std::vector<int>(places.size(), 0)) {}

    Packing run(const Order& order) {
        Order too_large;
        for (const std::size_t device : order)
            if (devices_[device] > 1 && !whole(device)) too_large.push_back(device);
        for (const std::size_t device : too_large) in_pieces(device);
        for (std::size_t device = 0; device < devices_.size(); ++device)
            if (devices_[device] == 1) single(device);
        return std::move(packing_);
    }

private:
    void put(std::size_t device, std::size_t place, int points) {
        packing_[device][place] += points;
        free_[place] -= points;
    }

    /// Into the fullest place that still holds it.
    bool whole(std::size_t device) {
        std::size_t best = free_.size();
        for (std::size_t place = 0; place < free_.size(); ++place)
            if (free_[place] >= devices_[device] &&
                (best == free_.size() || free_[place] < free_[best]))
                best = place;
        if (best == free_.size()) return false;
        put(device, best, devices_[device]);
        return true;
    }

    void in_pieces(std::size_t device) {
        for (int left = devices_[device]; left > 0;) {
            const auto most = std::max_element(free_.begin(), free_.end());
            if (*most <= 0) return;
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
        std::count_if(packing.begin(), packing.end(), [](const std::vector<int>& device) {
            return std::count_if(device.begin(), device.end(),
                                 [](int points) { return points > 0; }) > 1;
        }));
}

Packing pack_devices(const std::vector<int>& devices, const std::vector<int>& places) {
    Order order(devices.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    Packing given = Pack(devices, places).run(order);
    if (split_devices(given) == 0) return given;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return devices[a] > devices[b]; });
    Packing largest = Pack(devices, places).run(order);
    return split_devices(largest) < split_devices(given) ? largest : given;
}

} // namespace backplate
