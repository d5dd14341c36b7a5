#pragma once

#include <cstdint>
#include <vector>

namespace backplate {

/// A row of places, parted by feeds into segments with a bus current each.
struct OpenStation {
    int places = 0;
    std::vector<std::int64_t> segments; ///< mA
};

/// What takes places of a station and bus current of one of its segments.
struct PackItem {
    int places = 0;
    std::int64_t bus = 0; ///< mA
    bool operator==(const PackItem&) const = default;
};

/// Where an item stands.
struct PackedAt {
    std::size_t station = 0, segment = 0;
};

enum class Packing {
    found,
    impossible, ///< proven
    unknown     ///< the steps ended first
};

/// Gives every item a segment: by first fit, the hungriest first; where that fails by a search of
/// every way, items alike and stations alike taken once. `steps` is lowered by what the search took
/// and ends it at 0. `at`: by item, filled where found. Source: bin packing with two limits
/// (Martello and Toth, from memory); module-mix 2 (places and bus per station).
Packing pack_stations(const std::vector<OpenStation>& stations, const std::vector<PackItem>& items,
                      std::int64_t& steps, std::vector<PackedAt>& at);

} // namespace backplate
