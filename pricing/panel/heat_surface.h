#pragma once

#include <string>

#include "pricing/panel/heat_two_film.h"

namespace backplate {

/// Share of each face that cools, 0 to 2; rows of the table faces.
struct FaceFactors {
    double top, top_covered, side, side_covered, floor;
};

/// Effective cooling surface: Σ face × factor; the floor where air reaches it. Of several
/// enclosures side by side the sum of their positions: ends and middles of a row. Source:
/// climate-and-supply 1.1; the seven closed forms are its tests. Throws std::invalid_argument for
/// an unknown mounting.
SquareMetres effective_surface(const Surface& surface, const FaceFactors& factors);

/// Rise by the surface rule, P ÷ (U × A).
Kelvin surface_rule_rise(Watts heat, double u_low, SquareMetres surface);

/// Which faces another body covers; climate-and-supply 1.1 table.
struct CoveredFaces {
    bool rear = false, left = false, right = false, top = false;
    bool floor_counts = false; ///< hangs on a wall, so air reaches the floor
};
CoveredFaces covered_faces(const std::string& mounting);

/// Uncovered faces that the sun meets at once, m².
struct SunlitFaces {
    double front_m2 = 0, side_m2 = 0, top_m2 = 0;
    /// The largest area that any direction of the sun meets: √(front² + side² + top²).
    double projected_m2() const;
};
SunlitFaces sunlit_faces(const Surface& surface);

/// Rise by the sun, absorbed × largest area met ÷ (outer film × bare area of the uncovered faces).
/// Source: climate-and-supply 2.
Kelvin sun_rise(const Surface& surface, double outer_film);

/// Air needed to carry 1 W at 1 K: f = 3600 ÷ (ρ c_p), m³K/(Wh), from pressure and temperature.
/// Source: climate-and-supply 3.
double fan_constant(double altitude_m, Celsius air);

} // namespace backplate
