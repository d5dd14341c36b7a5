#pragma once

#include "reports/drawing/palette.h"
#include "reports/drawing/scene.h"

typedef struct _cairo cairo_t;

namespace backplate {

/// Draws the scene at the origin of the context, `scale` units of the context for a millimetre. The
/// context keeps its state. Serves PDF, SVG, PNG and the screen alike.
void paint(const Scene& scene, const Palette& palette, double scale, cairo_t* context);

/// Width that the text really takes in the drawing's font, mm: what paint finds and shrinks by
/// where a text is wider than its area.
double measured_width(const std::string& text, double size, bool bold, cairo_t* context);

} // namespace backplate
