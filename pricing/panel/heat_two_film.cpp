#include "pricing/panel/heat_two_film.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include "pricing/panel/heat_surface.h"

namespace backplate {
namespace {

constexpr double zero_celsius_k = 273.15;
constexpr double highest_inside_c = 500;
constexpr double hottest_above_inside_k = 300; // a wall in the sun, far beyond any irradiance

/// Faces of one kind share both films, so they are solved once with their summed area.
struct FaceKind {
    enum class Lie { vertical, top, floor };
    Lie lie = Lie::vertical;
    double area_m2 = 0;
    double length_m = 0;      ///< height, or area ÷ perimeter where horizontal
    double absorbed_w_m2 = 0; ///< of the sun
};

/// Vertical in the shade, top, floor, and the front and side in the sun (no area without sun).
std::array<FaceKind, 5> face_kinds(const Surface& surface) {
    const CoveredFaces covered = covered_faces(surface.mounting);
    const double front = surface.enclosures * surface.width_m * surface.height_m;
    const double side = surface.depth_m * surface.height_m;
    const double each_plan = surface.width_m * surface.depth_m;
    const double plan = surface.enclosures * each_plan;
    const double plan_length = each_plan / (2 * (surface.width_m + surface.depth_m));
    const double vertical =
        front * (covered.rear ? 1 : 2) + side * ((covered.left ? 0 : 1) + (covered.right ? 0 : 1));
    std::array<FaceKind, 5> kinds{
        {{FaceKind::Lie::vertical, vertical, surface.height_m},
         {FaceKind::Lie::top, covered.top ? 0 : plan, plan_length},
         {FaceKind::Lie::floor, covered.floor_counts ? plan : 0, plan_length},
         {FaceKind::Lie::vertical, 0, surface.height_m},
         {FaceKind::Lie::vertical, 0, surface.height_m}}};
    if (surface.sun_w_m2 <= 0) return kinds;
    const SunlitFaces lit = sunlit_faces(surface);
    // The direction that meets the largest area shines on a face by its share of that area.
    const double per_area = surface.sun_w_m2 / lit.projected_m2();
    kinds[0].area_m2 -= lit.front_m2 + lit.side_m2;
    kinds[1].absorbed_w_m2 = per_area * lit.top_m2;
    kinds[3].area_m2 = lit.front_m2;
    kinds[3].absorbed_w_m2 = per_area * lit.front_m2;
    kinds[4].area_m2 = lit.side_m2;
    kinds[4].absorbed_w_m2 = per_area * lit.side_m2;
    return kinds;
}

/// The value between low and high where `rising` changes its sign; halved until the bracket is
/// narrower than `width`.
template <class Function>
double bisect(double low, double high, double width, const Function& rising) {
    while (high - low > width) {
        const double middle = low + (high - low) / 2;
        (rising(middle) < 0 ? low : high) = middle;
    }
    return low + (high - low) / 2;
}

/// W/m² through one kind of face: films and wall in steady state.
class FaceBalance {
public:
    FaceBalance(const Surface& surface, const FaceKind& face, double outside_k, double inside_k)
        : surface_(surface), face_(face), outside_k_(outside_k), inside_k_(inside_k),
          pressure_pa_(pressure_at(surface.altitude_m)) {}

    /// What leaves the inside: what the outer face gives off less what it takes from the sun.
    double flux() const {
        const double sun = face_.absorbed_w_m2;
        const double hottest_k = sun > 0 ? inside_k_ + hottest_above_inside_k : inside_k_;
        const double wall_k = bisect(outside_k_, hottest_k, 1e-8, [&](double outer_wall_k) {
            const double through = outer_flux(outer_wall_k) - sun;
            return through - inner_flux(outer_wall_k + through * wall_resistance());
        });
        return outer_flux(wall_k) - sun;
    }

private:
    double wall_resistance() const { return surface_.wall_m / surface_.wall_conductivity; }

    double natural_film(double wall_k, double air_k, bool unstable) const {
        return face_.lie == FaceKind::Lie::vertical
                   ? film_vertical(face_.length_m, wall_k, air_k, pressure_pa_)
                   : film_horizontal(face_.length_m, wall_k, air_k, pressure_pa_, unstable);
    }

    // Under a cold ceiling lies a cold face down, above the hot top a hot face up: both unstable.
    // At the floor, and under a ceiling that the sun makes hotter than the air, they are stable.
    bool unstable(bool hot_side_below) const {
        return face_.lie == FaceKind::Lie::top && hot_side_below;
    }

    double outer_flux(double wall_k) const {
        const double film = natural_film(wall_k, outside_k_, unstable(wall_k >= outside_k_)) +
                            film_radiation(surface_.emissivity_out, wall_k, outside_k_);
        return film * (wall_k - outside_k_);
    }

    double inner_flux(double wall_k) const {
        const double moved = surface_.stirred
                                 ? surface_.stirred_film
                                 : natural_film(wall_k, inside_k_, unstable(inside_k_ >= wall_k));
        const double film = moved + film_radiation(surface_.emissivity_in, inside_k_, wall_k);
        return film * (inside_k_ - wall_k);
    }

    const Surface& surface_;
    const FaceKind& face_;
    double outside_k_, inside_k_, pressure_pa_;
};

bool between(double value, double low, double high) { return value >= low && value <= high; }

bool closed_form_holds(const Surface& surface, double flux) {
    return between(surface.height_m, 0.25, 2.2) && between(surface.width_m, 0.2, 1.2) &&
           between(surface.depth_m, 0.12, 0.8) && between(flux, 10, 130) && !surface.stirred &&
           surface.sun_w_m2 <= 0;
}

} // namespace

Watts heat_shed(const Surface& surface, Celsius outside, Celsius inside, Work& work) {
    ++work.counts.heat_evaluations;
    if (inside <= outside) return {0};
    const double outside_k = outside.value + zero_celsius_k;
    const double inside_k = inside.value + zero_celsius_k;
    Watts shed{0};
    for (const FaceKind& face : face_kinds(surface))
        if (face.area_m2 > 0)
            shed += {face.area_m2 * FaceBalance(surface, face, outside_k, inside_k).flux()};
    return shed;
}

Celsius inside_temperature(const Surface& surface, Celsius outside, Watts heat, Work& work) {
    if (heat.value <= 0 && surface.sun_w_m2 <= 0) return outside;
    const auto surplus = [&](double inside_c) {
        return heat_shed(surface, outside, {inside_c}, work).value - heat.value;
    };
    if (surplus(highest_inside_c) < 0)
        throw std::domain_error("the inside temperature lies above 500 °C");
    return {bisect(outside.value, highest_inside_c, 0.0001, surplus)};
}

Kelvin closed_form_rise(const Surface& surface, Celsius outside, Watts heat) {
    const auto [vertical, top, floor, front, side] = face_kinds(surface);
    const double film_area = vertical.area_m2 + 1.10 * top.area_m2 + 0.85 * floor.area_m2;
    const double flux = heat.value / film_area;
    if (!closed_form_holds(surface, flux))
        throw std::domain_error("outside the range of the closed form");
    const double rise = 0.4271 * std::pow(flux, 0.8779) * std::pow(surface.height_m, 0.0288);
    return {rise * (1 + 0.024 * surface.altitude_m / 1000) * (1 - 0.0043 * (outside.value - 35))};
}

AirProperties air_at(double kelvin, double pressure_pa) {
    constexpr double gas_constant = 287.053; // J/(kg K)
    constexpr double heat_capacity = 1006;   // J/(kg K)
    const double power = kelvin * std::sqrt(kelvin);
    AirProperties air{};
    air.density = pressure_pa / (gas_constant * kelvin);
    air.viscosity = 1.458e-6 * power / (kelvin + 110.4);
    air.conductivity = 2.64638e-3 * power / (kelvin + 245.4 * std::pow(10.0, -12 / kelvin));
    air.kinematic = air.viscosity / air.density;
    air.diffusivity = air.conductivity / (air.density * heat_capacity);
    air.prandtl = air.kinematic / air.diffusivity;
    return air;
}

double pressure_at(double altitude_m) {
    return 101325 * std::pow((288.15 - 0.0065 * altitude_m) / 288.15, 5.255876);
}

double rayleigh_number(const AirProperties& air, double film_k, double difference_k,
                       double length_m) {
    constexpr double gravity = 9.80665; // m/s²
    return gravity / film_k * std::abs(difference_k) * length_m * length_m * length_m /
           (air.kinematic * air.diffusivity);
}

double nusselt_vertical(double rayleigh, double prandtl) {
    const double prandtl_part = std::pow(1 + std::pow(0.492 / prandtl, 9.0 / 16), 8.0 / 27);
    const double root = 0.825 + 0.387 * std::pow(rayleigh, 1.0 / 6) / prandtl_part;
    return root * root;
}

double nusselt_horizontal(double rayleigh, bool unstable) {
    const double quarter = std::sqrt(std::sqrt(rayleigh));
    if (!unstable) return 0.27 * quarter;
    return std::max(0.54 * quarter, 0.15 * std::cbrt(rayleigh));
}

double film_vertical(double height_m, double surface_k, double air_k, double pressure_pa) {
    const double film_k = (surface_k + air_k) / 2;
    const AirProperties air = air_at(film_k, pressure_pa);
    const double rayleigh = rayleigh_number(air, film_k, surface_k - air_k, height_m);
    return nusselt_vertical(rayleigh, air.prandtl) * air.conductivity / height_m;
}

double film_horizontal(double length_m, double surface_k, double air_k, double pressure_pa,
                       bool unstable) {
    const double film_k = (surface_k + air_k) / 2;
    const AirProperties air = air_at(film_k, pressure_pa);
    const double rayleigh = rayleigh_number(air, film_k, surface_k - air_k, length_m);
    return nusselt_horizontal(rayleigh, unstable) * air.conductivity / length_m;
}

double film_radiation(double emissivity, double one_k, double other_k) {
    constexpr double stefan_boltzmann = 5.670374e-8; // W/(m² K⁴)
    return emissivity * stefan_boltzmann * (one_k * one_k + other_k * other_k) * (one_k + other_k);
}

} // namespace backplate
