#pragma once

#include <string>

#include "pricing/values/units.h"
#include "pricing/values/work.h"

namespace backplate {

/// The outside of a box as its heat sees it.
struct Surface {
    double width_m = 0, height_m = 0, depth_m = 0; ///< of one enclosure
    int enclosures = 1;   ///< equal ones side by side: faces at the joints are covered
    std::string mounting; ///< free, wall, row_end_free … (words of site.mounting)
    double emissivity_out = 0.9, emissivity_in = 0.5;
    double wall_m = 0.0015, wall_conductivity = 50;
    double altitude_m = 0;
    bool stirred = false; ///< an inside fan: forced inner film of `stirred_film` W/(m²K)
    double stirred_film = 10;
    double sun_w_m2 = 0; ///< absorbed where the sun falls square on a face
};

/// Heat that leaves the box when its inside air is at `inside` (mid-height) and the outside air at
/// `outside`: sum over the uncovered faces of the steady balance of two films and a wall. Rises
/// with `inside`; 0 where it is not above `outside`. The sun stands where it meets the largest
/// area of front, one free side and top (climate-and-supply 2); with it the sum may be negative.
/// Source: climate-and-supply 1.4 (Churchill & Chu 1975; handbook relations for plates; US
/// Standard Atmosphere 1976 air). Counts one heat evaluation.
Watts heat_shed(const Surface& surface, Celsius outside, Celsius inside, Work& work);

/// The inside air temperature (mid-height) at which `heat` leaves; bisection to 0.0001 K.
/// heat ≤ 0 without sun gives `outside`. Throws std::domain_error above 500 °C.
Celsius inside_temperature(const Surface& surface, Celsius outside, Watts heat, Work& work);

/// The closed form fitted to the balance (climate-and-supply 1.5), for tests and hand checks:
/// painted box without inside fan, within ±5 % of the rise for H 0.25–2.2, W 0.2–1.2, D 0.12–0.8 m,
/// 10–130 W per m² of film area at 35 °C and sea level, corrected for other air and altitude.
/// Throws std::domain_error outside that range.
Kelvin closed_form_rise(const Surface& surface, Celsius outside, Watts heat);

// Parts of the balance, for their own tests; W/(m²K).
struct AirProperties {
    double density, viscosity, conductivity, kinematic, diffusivity, prandtl;
};
AirProperties air_at(double kelvin, double pressure_pa);
double pressure_at(double altitude_m);
/// g β |surface − air| L³ ÷ (ν a), β = 1 ÷ film temperature.
double rayleigh_number(const AirProperties& air, double film_k, double difference_k,
                       double length_m);
double nusselt_vertical(double rayleigh, double prandtl);
double nusselt_horizontal(double rayleigh, bool unstable);
double film_vertical(double height_m, double surface_k, double air_k, double pressure_pa);
double film_horizontal(double length_m, double surface_k, double air_k, double pressure_pa,
                       bool unstable); ///< unstable: hot face up or cold face down
double film_radiation(double emissivity, double one_k, double other_k);

} // namespace backplate
