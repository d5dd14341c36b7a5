#pragma once

#include <string>
#include <vector>

#include "pricing/values/date.h"
#include "reports/drawing/palette.h"
#include "reports/drawing/scene.h"

namespace backplate {

/// What a file of drawings is, by the end of its name.
enum class DrawingKind { pdf, svg, png, unknown };
DrawingKind drawing_kind(const std::string& path);

/// The sheets as a file in the print palette: PDF with a page for each; SVG and PNG as one picture
/// with the sheets below each other. Equal sheets give equal bytes; `created` is the day that the
/// PDF names. Written beside `path`, which it replaces when complete. Throws OutsideFault.
void write_drawing(const std::vector<Scene>& sheets, const std::string& title, Date created,
                   const std::string& path);

/// The sheets below each other as the bytes of a PNG, at so many dots per inch, fewer where the
/// picture would grow too large.
std::string png_bytes(const std::vector<Scene>& sheets, double dots_per_inch);

} // namespace backplate
