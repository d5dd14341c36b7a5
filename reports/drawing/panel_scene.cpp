#include <algorithm>
#include <cmath>

#include "pricing/values/document_units.h"
#include "reports/drawing/text_size.h"
#include "reports/drawing/views.h"

namespace backplate {
namespace {

constexpr double rail_height_mm = 35; ///< IEC 60715

/// What the views of a box share.
struct Frame {
    double each = 0;                 ///< width of an enclosure, else of the plate
    double width = 0, height = 0;    ///< of all enclosures, else of the plate
    double plate_x = 0, plate_y = 0; ///< of a plate in its enclosure
    double text = 0, margin = 0;
    bool box = false; ///< an enclosure is known
};

Frame frame_of(const BoxResult& box, const ViewStyle& style) {
    Frame frame;
    const Layout& layout = box.layout;
    const EnclosureResult& enclosure = box.enclosures.front();
    frame.box = enclosure.width_mm && enclosure.height_mm;
    frame.each = enclosure.width_mm.value_or(layout.plate_width_mm);
    frame.width = enclosure.quantity * frame.each;
    frame.height = enclosure.height_mm.value_or(layout.plate_height_mm);
    frame.plate_x = (frame.each - layout.plate_width_mm) / 2;
    frame.plate_y = (frame.height - layout.plate_height_mm) / 2;
    frame.text = style.text > 0 ? style.text : std::max(frame.width, frame.height) / 75;
    frame.margin = frame.text * (style.dimensions ? 4.6 : 0.6);
    return frame;
}

class PanelView {
public:
    PanelView(const BoxResult& box, const ViewStyle& style)
        : box_(box), layout_(box.layout), style_(style), frame_(frame_of(box, style)),
          pen_(frame_.text / 11) {
        scene_.width = frame_.width + 2 * frame_.margin;
        scene_.height = frame_.height + 2 * frame_.margin;
        scene_.title = box.name + ", inside";
        plate_ = {frame_.margin + frame_.plate_x, frame_.margin + frame_.plate_y,
                  layout_.plate_width_mm, layout_.plate_height_mm};
    }

    Scene draw() {
        for (int at = 0; at < box_.enclosures.front().quantity; ++at) {
            const Area walls{frame_.margin + at * frame_.each, frame_.margin, frame_.each,
                             frame_.height};
            if (frame_.box) scene_.box(Tone::box, walls, pen_ * 2);
            scene_.box(Tone::plate, on_plate(at, 0, 0, plate_.width, plate_.height), pen_);
            ducts(at);
        }
        for (const LayoutRow& row : layout_.rows) rail(row);
        for (std::size_t at = 0; at < layout_.free.size(); ++at)
            free_plate(layout_.free[at], static_cast<int>(at));
        devices();
        strips();
        breaks();
        if (style_.dimensions) dimensions();
        return std::move(scene_);
    }

private:
    /// Of the plate in the enclosure `at`.
    Area on_plate(int at, double x, double y, double width, double height) const {
        return {plate_.x + at * frame_.each + x, plate_.y + y, width, height};
    }
    const LayoutRow& row_of(int row) const {
        return layout_.rows.at(static_cast<std::size_t>(row));
    }

    void ducts(int at) {
        const double duct = layout_.duct_mm;
        if (duct <= 0) return;
        const double lower = layout_.free.at(static_cast<std::size_t>(at)).y_mm;
        scene_.box(Tone::duct, on_plate(at, 0, 0, duct, lower), pen_ * 0.6);
        scene_.box(Tone::duct, on_plate(at, plate_.width - duct, 0, duct, lower), pen_ * 0.6);
        const auto across = [&](double y) {
            const Area area = on_plate(at, duct, y, plate_.width - 2 * duct, duct);
            scene_.box(Tone::duct, area, pen_ * 0.6);
            scene_.text(Tone::duct, area, "duct " + dimension_text(duct, style_.inch),
                        std::min(frame_.text * 0.8, duct * 0.6), Align::centre);
        };
        across(0);
        for (const LayoutRow& row : layout_.rows)
            if (row.enclosure == at) across(row.y_mm + row.height_mm);
    }

    void rail(const LayoutRow& row) {
        const double y = row.y_mm + (row.height_mm - rail_height_mm) / 2;
        scene_.box(Tone::rail,
                   on_plate(row.enclosure, layout_.rail_x_mm, y, layout_.rail_mm, rail_height_mm),
                   pen_ * 0.6);
        const double left = layout_.rail_mm - row.used_mm;
        if (left < frame_.text) return;
        const double high = std::min(row.height_mm * 0.5, rail_height_mm * 1.9);
        const Area area = on_plate(row.enclosure, layout_.rail_x_mm + row.used_mm,
                                   row.y_mm + (row.height_mm - high) / 2, left, high);
        scene_.box(Tone::room, area, pen_ * 0.5);
        scene_.shapes.back().dashed = true;
        const std::string text = "free " + dimension_text(left, style_.inch);
        const double size = frame_.text * 0.9;
        if (text_width(text, size) < area.width * 0.95)
            backed_text(area, text, size);
        else if (text_width(text, size) < area.height * 0.95 && size * line_height < area.width)
            scene_.upright(Tone::room, area, text, size);
    }

    /// Text on a plain ground of its own, for a patterned area.
    void backed_text(const Area& area, const std::string& text, double size) {
        const double width = text_width(text, size) + size * 0.6;
        const Area back{area.x + (area.width - width) / 2,
                        area.y + (area.height - size * line_height) / 2, width, size * line_height};
        scene_.box(Tone::room, back, 0);
        scene_.text(Tone::room, back, text, size, Align::centre);
    }

    void free_plate(const FreePlate& free, int at) {
        if (free.height_mm < frame_.text * 1.5) return;
        const Area area = on_plate(at, 0, free.y_mm, plate_.width, free.height_mm);
        scene_.box(Tone::room, area, pen_ * 0.5);
        backed_text(area,
                    "free plate " + dimension_text(free.height_mm, style_.inch) +
                        ", cables enter here",
                    std::min(frame_.text, free.height_mm * 0.7));
    }

    void devices() {
        std::vector<LabelledDevice> labels;
        for (const PlacedDevice& device : layout_.devices) {
            if (device.face != Face::plate) continue;
            const Area area = on_plate(device.enclosure, device.x_mm, device.y_mm, device.width_mm,
                                       device.height_mm);
            const bool terminal = device.kind == "terminal";
            scene_.box(tone_of(device), area, pen_ * (terminal ? 0.3 : 0.8), true, device.id);
            if (!terminal) labels.push_back({area, device.id, device.part});
        }
        add_labels(scene_, labels, frame_.text);
    }

    /// Ends of the strips, and their names over the terminals.
    void strips() {
        for (const TerminalStrip& strip : layout_.strips) {
            const LayoutRow& row = row_of(strip.row);
            double left = strip.x_mm + strip.width_mm, right = strip.x_mm, high = 0;
            for (const PlacedDevice& device : layout_.devices) {
                if (!device.id.starts_with(strip.id + ":")) continue;
                left = std::min(left, device.x_mm);
                right = std::max(right, device.x_mm + device.width_mm);
                high = std::max(high, device.height_mm);
            }
            const double y = row.y_mm + (row.height_mm - high) / 2;
            for (const auto& [x, width] : {std::pair{strip.x_mm, left - strip.x_mm},
                                           std::pair{right, strip.x_mm + strip.width_mm - right}})
                if (width > 0)
                    scene_.box(Tone::rail, on_plate(row.enclosure, x, y, width, high), pen_ * 0.6);
            const std::string name =
                strip.id + "  1–" + std::to_string(strip.pieces) + (strip.mains ? " mains" : "");
            strip_name(strip,
                       on_plate(row.enclosure, strip.x_mm, row.y_mm, strip.width_mm, y - row.y_mm),
                       name);
        }
    }

    void strip_name(const TerminalStrip& strip, const Area& above, const std::string& name) {
        const double size = std::min(frame_.text * 0.9, above.height / line_height);
        const bool whole = text_width(name, size) <= above.width;
        scene_.text(Tone::ink, above, whole ? name : strip.id, size, Align::centre);
        scene_.shapes.back().device = strip.id + ":1";
    }

    void breaks() {
        for (const BusBreak& each : layout_.breaks) {
            const LayoutRow& row = row_of(each.row);
            const bool above = each.row > 0 && row_of(each.row - 1).enclosure == row.enclosure;
            const Area area = on_plate(row.enclosure, layout_.rail_x_mm, row.y_mm,
                                       layout_.rail_mm * 0.6, frame_.text * line_height);
            scene_.text(Tone::caution, area,
                        above ? "bus goes on from the row above: extension needed"
                              : "bus goes on from the plate before: extension needed",
                        frame_.text * 0.8);
        }
    }

    void dimensions() {
        const double size = frame_.text, step = size * 2.0, edge = frame_.margin;
        const auto text = [&](double length) { return dimension_text(length, style_.inch); };
        double off = edge - size * 0.8;
        for (int at = 0; at < box_.enclosures.front().quantity; ++at) {
            const Area plate = on_plate(at, 0, 0, plate_.width, plate_.height);
            add_dimension(scene_, plate.x, off, plate.right(), off, text(plate.width), size);
        }
        add_dimension(scene_, off, plate_.y, off, plate_.bottom(), text(plate_.height), size);
        if (frame_.box) {
            off -= step;
            const int pieces = box_.enclosures.front().quantity;
            add_dimension(
                scene_, edge, off, edge + frame_.width, off,
                (pieces > 1 ? std::to_string(pieces) + " × " + text(frame_.each) + " = " : "") +
                    text(frame_.width),
                size);
            add_dimension(scene_, off, edge, off, edge + frame_.height, text(frame_.height), size);
        }
        const double right = edge + frame_.width + size * 2.4;
        for (const LayoutRow& row : layout_.rows)
            if (row.enclosure + 1 == box_.enclosures.front().quantity)
                add_dimension(scene_, right, plate_.y + row.y_mm, right,
                              plate_.y + row.y_mm + row.height_mm, text(row.height_mm), size * 0.9);
        const double below = edge + frame_.height + size * 2.2;
        for (int plate = 0; plate < box_.enclosures.front().quantity; ++plate) {
            const Area rail = on_plate(plate, layout_.rail_x_mm, 0, layout_.rail_mm, 0);
            add_dimension(scene_, rail.x, below, rail.right(), below,
                          "rail " + text(layout_.rail_mm), size * 0.9);
        }
    }

    const BoxResult& box_;
    const Layout& layout_;
    ViewStyle style_;
    Frame frame_;
    double pen_;
    Scene scene_;
    Area plate_;
};

bool drawable(const Estimate& estimate, std::size_t at) {
    return at < estimate.boxes.size() && !estimate.boxes[at].enclosures.empty() &&
           estimate.boxes[at].layout.plate_width_mm > 0;
}

} // namespace

std::string dimension_text(double millimetres, bool inch) {
    return inch ? number_text(length_in(millimetres, true), 2)
                : number_text(std::round(millimetres * 10) / 10 + 0.0);
}

Tone tone_of(const PlacedDevice& device) {
    if (device.face != Face::plate) return Tone::door;
    if (device.band == "mains") return Tone::mains;
    if (device.band == "supply") return Tone::supply;
    if (device.band == "platform") return Tone::platform;
    return device.band == "terminals" ? Tone::terminals : Tone::other;
}

void add_dimension(Scene& scene, double x1, double y1, double x2, double y2,
                   const std::string& text, double size) {
    const double pen = size / 14, tick = size * 0.35, line = size * line_height;
    scene.line(Tone::dimension, x1, y1, x2, y2, pen);
    for (const auto& [x, y] : {std::pair{x1, y1}, std::pair{x2, y2}})
        scene.line(Tone::dimension, x - tick, y + tick, x + tick, y - tick, pen * 1.6);
    const bool level = y1 == y2;
    const double length = level ? x2 - x1 : y2 - y1;
    const double need = text_width(text, size);
    const double room = std::max(length, need); // a short one reaches beyond its ends
    if (level)
        scene.text(Tone::dimension, {(x1 + x2 - room) / 2, y1 - line, room, line}, text, size,
                   Align::centre);
    else
        scene.upright(Tone::dimension, {x1 - line, (y1 + y2 - room) / 2, line, room}, text, size);
}

Scene panel_scene(const Estimate& estimate, std::size_t at, const ViewStyle& style) {
    if (!drawable(estimate, at)) return {};
    return PanelView(estimate.boxes[at], style).draw();
}

} // namespace backplate
