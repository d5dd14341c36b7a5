#include <algorithm>

#include "reports/drawing/text_size.h"
#include "reports/drawing/views.h"

namespace backplate {
namespace {

constexpr double smallest = 0.62; ///< of the wanted size; below, devices share a label

/// Size at which the text fits the area; 0 where not even the smallest does.
double fitting(const std::string& text, double along, double across, double size) {
    const double share = std::min(
        1.0, std::min(along * 0.94 / text_width(text, size), across * 0.96 / (line_height * size)));
    return share < smallest ? 0 : share * size;
}

void mark_last(Scene& scene, const std::string& device) { scene.shapes.back().device = device; }

/// Id and, where there is room, the part below it; false where the id fits in neither direction.
bool label_one(Scene& scene, const LabelledDevice& device, double size) {
    const Area& area = device.area;
    const double line = line_height * size;
    const bool part_fits = text_width(device.part, size * 0.7) <= area.width * 0.94;
    if (text_width(device.id, size, true) <= area.width * 0.94 && area.height >= line) {
        const bool two = !device.part.empty() && part_fits && area.height >= 2 * line;
        const double top = area.y + (area.height - (two ? 2 : 1) * line) / 2;
        scene.text(Tone::ink, {area.x, top, area.width, line}, device.id, size, Align::centre,
                   true);
        mark_last(scene, device.id);
        if (two) {
            scene.text(Tone::ink, {area.x, top + line, area.width, line * 0.8}, device.part,
                       size * 0.7, Align::centre);
            mark_last(scene, device.id);
        }
        return true;
    }
    const std::string both = device.part.empty() ? device.id : device.id + "  " + device.part;
    for (const std::string& text : {both, device.id})
        if (const double fit = fitting(text, area.height, area.width, size)) {
            scene.upright(Tone::ink, area, text, fit, device.id);
            return true;
        }
    return false;
}

/// "A3–A5"; terminals "X1:1–40".
std::string shared_id(const std::string& first, const std::string& last) {
    if (first == last) return first;
    const auto colon = last.find(':');
    return first + "–" + (colon == std::string::npos ? last : last.substr(colon + 1));
}

bool beside(const LabelledDevice& a, const LabelledDevice& b) {
    const bool same_row = std::abs(a.area.y + a.area.height / 2 - b.area.y - b.area.height / 2) < 1;
    return same_row && std::abs(a.area.right() - b.area.x) < 1 && a.part == b.part;
}

} // namespace

void add_labels(Scene& scene, const std::vector<LabelledDevice>& devices, double size) {
    for (std::size_t i = 0; i < devices.size();) {
        if (label_one(scene, devices[i], size)) {
            ++i;
            continue;
        }
        std::size_t last = i;
        while (last + 1 < devices.size() && beside(devices[last], devices[last + 1])) ++last;
        const Area& first = devices[i].area;
        Area area{first.x, first.y, devices[last].area.right() - first.x, first.height};
        const std::string id = shared_id(devices[i].id, devices[last].id);
        double fit = fitting(id, area.width, area.height, size);
        if (fit > 0) {
            const double wide = text_width(id, fit) * 1.08, high = fit * line_height;
            scene.box(
                Tone::paper,
                {area.x + (area.width - wide) / 2, area.y + (area.height - high) / 2, wide, high},
                0, true, devices[i].id);
            scene.text(Tone::ink, area, id, fit, Align::centre);
            mark_last(scene, devices[i].id);
        } else {
            fit = fitting(id, area.height, area.width, size);
            scene.upright(Tone::ink, area, id, fit > 0 ? fit : area.width * 0.9 / line_height,
                          devices[i].id);
        }
        i = last + 1;
    }
}

} // namespace backplate
