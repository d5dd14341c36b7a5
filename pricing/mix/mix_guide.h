#pragma once

#include <optional>

#include "pricing/mix/arrange.h"

namespace backplate {

/// What bounds the modules of a mix around one controller and so many heads.
struct MixRoom {
    std::int64_t places = 0, bus = 0;  ///< of the controller and the heads; places, mA
    std::optional<std::int64_t> width; ///< of modules and feeds, 0.1 mm
};

/// A guide and what it says of every choice.
struct GuidedMix {
    MixGuide guide; ///< its rates with what places, bus current and width are worth
    /// No choice within the room costs less at the rates asked for, modules and feeds alone, less
    /// its excess; 1e-10 of the currency.
    std::int64_t least = 0;
};

/// Prices of channels, places, bus current and width by a linear program: the dual of covering the
/// lines at least cost at `rate`, whole pieces not asked for. Its doubles only propose: the prices
/// are rounded and lowered in whole numbers until no module and no feed costs less than what it
/// gives, so that the bound holds exactly. Nothing where no choice keeps within the room.
/// Source: module-mix 2, 4 (R9); weak duality of linear programs.
std::optional<GuidedMix> guided_mix(const MixProblem& problem, const Closers& closers,
                                    const MixSums& rate, const MixRoom& room);

/// The least that one sum of modules and feeds comes to in any choice, whatever the others.
std::int64_t least_sum(const MixProblem& problem, MixSums::Index sum);

} // namespace backplate
