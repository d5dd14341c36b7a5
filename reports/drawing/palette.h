#pragma once

#include <array>

#include "reports/drawing/scene.h"

namespace backplate {

/// Parts of red, green and blue, each 0 to 1.
struct Colour {
    double red = 0, green = 0, blue = 0;
    /// How light it looks in grey, 0 to 1. Source: ITU-R BT.709, on linear light (IEC 61966-2-1).
    double luminance() const;
};

enum class Pattern { none, falling, rising, crossed, dots };

/// How a tone looks: ground, outline and pattern (drawn with the outline's colour), text on it.
struct Look {
    Colour fill, line, text;
    Pattern pattern = Pattern::none;
};

/// Colours of a drawing. The bands of devices differ in hue, in grey and in pattern, and every
/// device bears its letter, so that nothing is told by colour alone.
struct Palette {
    std::array<Look, 17> looks; ///< by Tone
    const Look& of(Tone tone) const { return looks[static_cast<std::size_t>(tone)]; }
};

const Palette& print_palette(); ///< on white paper
const Palette& light_palette(); ///< on a light screen
const Palette& dark_palette();  ///< on a dark screen

} // namespace backplate
