#include "pricing/panel/heat_surface.h"

#include <array>
#include <cmath>
#include <stdexcept>
#include <string_view>

namespace backplate {
namespace {

struct MountingFaces {
    std::string_view word;
    CoveredFaces covered;
};

constexpr std::array<MountingFaces, 7> mounting_faces{{
    {"free", {}},
    {"wall", {.rear = true, .floor_counts = true}},
    {"row_end_free", {.left = true}},
    {"row_end_wall", {.rear = true, .left = true, .floor_counts = true}},
    {"row_middle_free", {.left = true, .right = true}},
    {"row_middle_wall", {.rear = true, .left = true, .right = true, .floor_counts = true}},
    {"row_middle_wall_covered",
     {.rear = true, .left = true, .right = true, .top = true, .floor_counts = true}},
}};

} // namespace

CoveredFaces covered_faces(const std::string& mounting) {
    for (const MountingFaces& row : mounting_faces)
        if (row.word == mounting) return row.covered;
    throw std::invalid_argument("unknown mounting '" + mounting + "'");
}

SquareMetres effective_surface(const Surface& surface, const FaceFactors& factors) {
    const CoveredFaces covered = covered_faces(surface.mounting);
    const auto upright = [&](bool hidden) { return hidden ? factors.side_covered : factors.side; };
    const double front = surface.enclosures * surface.width_m * surface.height_m;
    const double side = surface.depth_m * surface.height_m;
    const double plan = surface.enclosures * surface.width_m * surface.depth_m;
    const int joint_sides = 2 * (surface.enclosures - 1);
    return {plan * (covered.top ? factors.top_covered : factors.top) +
            plan * (covered.floor_counts ? factors.floor : 0) +
            front * (upright(false) + upright(covered.rear)) +
            side * (upright(covered.left) + upright(covered.right) + joint_sides * upright(true))};
}

Kelvin surface_rule_rise(Watts heat, double u_low, SquareMetres surface) {
    return {heat.value / (u_low * surface.value)};
}

double SunlitFaces::projected_m2() const {
    return std::sqrt(front_m2 * front_m2 + side_m2 * side_m2 + top_m2 * top_m2);
}

SunlitFaces sunlit_faces(const Surface& surface) {
    const CoveredFaces covered = covered_faces(surface.mounting);
    SunlitFaces lit;
    lit.front_m2 = surface.enclosures * surface.width_m * surface.height_m;
    if (!covered.left || !covered.right) lit.side_m2 = surface.depth_m * surface.height_m;
    if (!covered.top) lit.top_m2 = surface.enclosures * surface.width_m * surface.depth_m;
    return lit;
}

Kelvin sun_rise(const Surface& surface, double outer_film) {
    const CoveredFaces covered = covered_faces(surface.mounting);
    const double front = surface.enclosures * surface.width_m * surface.height_m;
    const double side = surface.depth_m * surface.height_m;
    const double plan = surface.enclosures * surface.width_m * surface.depth_m;
    const double bare = front * (covered.rear ? 1 : 2) +
                        side * ((covered.left ? 0 : 1) + (covered.right ? 0 : 1)) +
                        plan * ((covered.top ? 0 : 1) + (covered.floor_counts ? 1 : 0));
    return {surface.sun_w_m2 * sunlit_faces(surface).projected_m2() / (outer_film * bare)};
}

double fan_constant(double altitude_m, Celsius air) {
    constexpr double heat_capacity = 1005; // J/(kg K), air between 0 and 60 °C
    const double density = air_at(air.value + 273.15, pressure_at(altitude_m)).density;
    return 3600 / (density * heat_capacity);
}

} // namespace backplate
