#pragma once

#include <cstddef>
#include <string>

#include "pricing/job/estimate.h"
#include "reports/drawing/scene.h"

namespace backplate {

/// How a view is drawn.
struct ViewStyle {
    double text = 0;        ///< size of labels in mm of the view; 0: by the size of the box
    bool dimensions = true; ///< with dimension lines around it
    bool inch = false;      ///< dimensions in inches
};

/// The box `at` of the estimate opened: enclosure, plate, ducts, rails, free room and every device
/// of the plate with its id, in real millimetres from the upper left corner of the scene. A box
/// that nothing builds gives an empty scene.
Scene panel_scene(const Estimate& estimate, std::size_t at, const ViewStyle& style = {});

/// Its door with the devices in it; empty where no box belongs to the plate.
Scene door_scene(const Estimate& estimate, std::size_t at, const ViewStyle& style = {});

/// The box cut from door to plate: deepest device, door device and the air between.
Scene depth_scene(const Estimate& estimate, std::size_t at, const ViewStyle& style = {});

/// A length as a dimension prints it, without its unit: "800", "31.5".
std::string dimension_text(double millimetres, bool inch);

/// A door device that states no width and is small enough is a round one of its height.
bool drawn_round(const PlacedDevice& device);

/// Tone of a band's devices.
Tone tone_of(const PlacedDevice& device);

/// A dimension line from (x1, y1) to (x2, y2), level or plumb, with its text above or left of it.
void add_dimension(Scene& scene, double x1, double y1, double x2, double y2,
                   const std::string& text, double size);

/// Writes the ids of devices that stand side by side into their areas; narrow ones of one part
/// share a label.
struct LabelledDevice {
    Area area;
    std::string id, part;
};
void add_labels(Scene& scene, const std::vector<LabelledDevice>& devices, double size);

} // namespace backplate
