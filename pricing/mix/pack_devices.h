#pragma once

#include <cstddef>
#include <vector>

namespace backplate {

/// Points of a device in one place.
struct Piece {
    std::size_t place = 0;
    int points = 0;
    bool operator==(const Piece&) const = default;
};

/// Where the points of each device go: by device its pieces, each in a place of its own.
using Packing = std::vector<std::vector<Piece>>;

/// Devices of so many points into places of so many channels; together they hold all points. As few
/// devices as possible are split over several places: proven where a search over the whole ones
/// ends within its bound of steps, else the best found. Whole devices go where the least stays
/// free; what is split takes the largest rests; devices of one point fill what is left, in order.
Packing pack_devices(const std::vector<int>& devices, const std::vector<int>& places);

/// Devices with points in more than one place.
std::size_t split_devices(const Packing& packing);

} // namespace backplate
