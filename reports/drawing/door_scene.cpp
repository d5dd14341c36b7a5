#include <algorithm>

#include "reports/drawing/text_size.h"
#include "reports/drawing/views.h"

namespace backplate {
namespace {

constexpr double largest_round = 80; ///< mm: what is larger and states no width is a panel

bool has_door(const Estimate& estimate, std::size_t at) {
    if (at >= estimate.boxes.size() || estimate.boxes[at].enclosures.empty()) return false;
    const EnclosureResult& enclosure = estimate.boxes[at].enclosures.front();
    return enclosure.width_mm && enclosure.height_mm;
}

double text_of(const ViewStyle& style, double width, double height) {
    return style.text > 0 ? style.text : std::max(width, height) / 75;
}

/// `each`: width of a door; doors of a suite stand side by side.
void add_door_devices(Scene& scene, const Layout& layout, double each, double margin, double text,
                      double pen) {
    std::vector<LabelledDevice> labels;
    for (const PlacedDevice& device : layout.devices) {
        if (device.face != Face::door || !device.placed) continue;
        const Area area{margin + device.enclosure * each + device.x_mm, margin + device.y_mm,
                        device.width_mm, device.height_mm};
        scene.box(Tone::door, area, pen, true, device.id);
        if (drawn_round(device)) scene.shapes.back().kind = Shape::Kind::round;
        labels.push_back({area, device.id, device.part});
        if (device.kind != "cooling") continue;
        const Area outlet{area.x, scene.height - area.bottom(), area.width, area.height};
        scene.box(Tone::door, outlet, pen, true, device.id);
        scene.text(Tone::ink, outlet, device.id + " outlet", text * 0.9, Align::centre);
        scene.shapes.back().device = device.id;
    }
    add_labels(scene, labels, text);
}

/// What is asked for the door and cannot be drawn; that nothing is in it. `leaf`: the first door.
void add_door_notes(Scene& scene, const Layout& layout, const Area& leaf, double text) {
    double y = leaf.y + leaf.height / 2;
    bool empty = true;
    for (const PlacedDevice& device : layout.devices) {
        if (device.face != Face::door) continue;
        empty = false;
        if (device.placed) continue;
        const bool sized = device.height_mm > 0;
        scene.text(Tone::caution, {leaf.x, y, leaf.width, text * line_height},
                   device.id + " " + (device.part.empty() ? device.text : device.part) +
                       (sized ? ": no room left in the door" : ": size not stated, not drawn"),
                   text, Align::centre);
        scene.shapes.back().device = device.id;
        y += text * line_height * 1.2;
    }
    if (empty)
        scene.text(Tone::faint, {leaf.x, y - text, leaf.width, 2 * text}, "no devices in the door",
                   text, Align::centre);
}

/// Devices seen from the side: on the plate, in the door and, dashed, in a wall.
void add_depths(Scene& scene, const Layout& layout, const Area& box, const Area& plate,
                double pen) {
    for (const PlacedDevice& device : layout.devices) {
        if (device.face == Face::plate && device.kind != "terminal")
            scene.box(tone_of(device),
                      {plate.x - device.depth_mm, plate.y + device.y_mm, device.depth_mm,
                       device.height_mm},
                      pen, true, device.id);
        if (device.face == Face::door && device.placed)
            scene.box(Tone::door, {box.x, box.y + device.y_mm, device.depth_mm, device.height_mm},
                      pen, true, device.id);
        if (device.face != Face::wall) continue;
        const double high = std::min(device.height_mm, box.height * 0.9);
        scene.box(Tone::door,
                  {box.x + box.width * 0.2, box.y + (box.height - high) / 2, box.width * 0.6, high},
                  pen, false, device.id);
        scene.shapes.back().dashed = true;
        scene.text(Tone::ink,
                   {box.x + box.width * 0.2, box.y + (box.height - high) / 2 + high - pen * 24,
                    box.width * 0.6, pen * 16 * line_height},
                   device.id + " in the wall", pen * 14, Align::centre);
        scene.shapes.back().device = device.id;
    }
}

} // namespace

bool drawn_round(const PlacedDevice& device) {
    return device.round && device.height_mm <= largest_round;
}

Scene door_scene(const Estimate& estimate, std::size_t at, const ViewStyle& style) {
    Scene scene;
    if (!has_door(estimate, at)) return scene;
    const BoxResult& box = estimate.boxes[at];
    const int doors = box.enclosures.front().quantity;
    const double each = *box.enclosures.front().width_mm, width = doors * each;
    const double height = *box.enclosures.front().height_mm;
    const double text = text_of(style, width, height);
    const double margin = text * (style.dimensions ? 2.8 : 0.6);
    scene.width = width + 2 * margin;
    scene.height = height + 2 * margin;
    scene.title = box.name + ", door";
    for (int door = 0; door < doors; ++door)
        scene.box(Tone::box, {margin + door * each, margin, each, height}, text / 6);
    add_door_devices(scene, box.layout, each, margin, text, text / 12);
    add_door_notes(scene, box.layout, {margin, margin, each, height}, text);
    if (!style.dimensions) return scene;
    add_dimension(scene, margin, margin - text * 0.8, margin + width, margin - text * 0.8,
                  dimension_text(width, style.inch), text);
    add_dimension(scene, margin - text * 0.8, margin, margin - text * 0.8, margin + height,
                  dimension_text(height, style.inch), text);
    return scene;
}

Scene depth_scene(const Estimate& estimate, std::size_t at, const ViewStyle& style) {
    Scene scene;
    if (!has_door(estimate, at)) return scene;
    const BoxResult& box = estimate.boxes[at];
    const Layout& layout = box.layout;
    const EnclosureResult& enclosure = box.enclosures.front();
    if (!enclosure.depth_mm || !layout.usable_depth_mm) return scene;
    const double depth = *enclosure.depth_mm, height = *enclosure.height_mm;
    const double text = text_of(style, depth, height);
    const double margin = text * 2.8, lower = text * 9;
    scene.width = depth + 2 * margin;
    scene.height = height + margin + lower;
    scene.title = box.name + ", side";
    const double plate = margin + *layout.usable_depth_mm;
    const double plate_y = margin + (height - layout.plate_height_mm) / 2;
    scene.box(Tone::box, {margin, margin, depth, height}, text / 6);
    scene.box(Tone::ink, {plate, plate_y, text / 3, layout.plate_height_mm}, text / 16, true);
    add_depths(scene, layout, {margin, margin, depth, height}, {plate, plate_y, 0, 0}, text / 16);
    const auto size = [&](double x1, double x2, double y, double length, const char* what) {
        add_dimension(scene, x1, y, x2, y, what + dimension_text(length, style.inch), text * 0.9);
    };
    const double under = margin + height + text * 2.4;
    size(margin, margin + depth, margin - text * 0.8, depth, "");
    size(margin, plate, under, *layout.usable_depth_mm, "usable ");
    size(plate - layout.deepest_mm, plate, under + text * 2.4, layout.deepest_mm, "deepest ");
    if (layout.deepest_door_mm > 0)
        size(margin, margin + layout.deepest_door_mm, under + text * 4.8, layout.deepest_door_mm,
             "door ");
    return scene;
}

} // namespace backplate
