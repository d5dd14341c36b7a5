#pragma once

#include <cstddef>
#include <vector>

namespace backplate {

/// Where the points of each device go: by device, by place, how many.
using Packing = std::vector<std::vector<int>>;

/// Devices of so many points into places of so many channels; together they hold all points. Few
/// devices are split over several places: whole ones first, each where the least stays free, the
/// largest first or in the order given, whichever splits fewer; what fits nowhere whole takes the
/// largest rests. Devices of one point fill what is left, in order. Not proven the fewest.
Packing pack_devices(const std::vector<int>& devices, const std::vector<int>& places);

/// Devices with points in more than one place.
std::size_t split_devices(const Packing& packing);

} // namespace backplate
