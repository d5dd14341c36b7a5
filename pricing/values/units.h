#pragma once

#include <cmath>
#include <compare>

namespace backplate {

/// A physical quantity in one fixed unit. Sums and differences stay in the unit; anything else
/// says `.value` and names what it does.
template <class Tag> struct Unit {
    double value = 0;

    friend Unit operator+(Unit a, Unit b) { return {a.value + b.value}; }
    friend Unit operator-(Unit a, Unit b) { return {a.value - b.value}; }
    friend Unit operator*(Unit a, double factor) { return {a.value * factor}; }
    friend Unit operator*(double factor, Unit a) { return {a.value * factor}; }
    friend Unit operator/(Unit a, double divisor) { return {a.value / divisor}; }
    Unit& operator+=(Unit other) {
        value += other.value;
        return *this;
    }
    friend auto operator<=>(const Unit&, const Unit&) = default;
};

using Watts = Unit<struct WattsTag>;
using Celsius = Unit<struct CelsiusTag>;
using Kelvin = Unit<struct KelvinTag>; ///< a temperature difference
using Amperes = Unit<struct AmperesTag>;
using Volts = Unit<struct VoltsTag>;
using Millimetres = Unit<struct MillimetresTag>;
using Metres = Unit<struct MetresTag>;
using SquareMetres = Unit<struct SquareMetresTag>;
using CubicMetresPerHour = Unit<struct FlowTag>;

/// The border from physics to integers: a limit goes down, a need goes up. Differences below a
/// millionth of a step are noise of double arithmetic and do not move the value.
inline long long limit_in(double value, double step) {
    return static_cast<long long>(std::floor(value / step + 1e-6));
}
inline long long need_in(double value, double step) {
    return static_cast<long long>(std::ceil(value / step - 1e-6));
}

} // namespace backplate
