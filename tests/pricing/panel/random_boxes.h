#pragma once

#include <array>
#include <random>
#include <string>

#include "pricing/panel/heat_surface.h"

namespace backplate {

/// All positions of a box, as requests name them.
inline constexpr std::array mountings{"free",
                                      "wall",
                                      "row_end_free",
                                      "row_end_wall",
                                      "row_middle_free",
                                      "row_middle_wall",
                                      "row_middle_wall_covered"};

inline Surface box_of(double height_m, double width_m, double depth_m,
                      const std::string& mounting) {
    Surface surface;
    surface.height_m = height_m;
    surface.width_m = width_m;
    surface.depth_m = depth_m;
    surface.mounting = mounting;
    return surface;
}

/// Uniform numbers; the values of a 32-bit Mersenne twister are fixed by the standard.
class Spread {
public:
    explicit Spread(unsigned seed) : engine_(seed) {}
    double in(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0;
    }
    int index(int count) { return static_cast<int>(engine_() % static_cast<unsigned>(count)); }

private:
    std::mt19937 engine_;
};

} // namespace backplate
