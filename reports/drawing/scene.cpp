#include "reports/drawing/scene.h"

#include "reports/drawing/text_size.h"

namespace backplate {

void Scene::box(Tone tone, Area area, double pen, bool filled, const std::string& device) {
    Shape shape;
    shape.tone = tone;
    shape.area = area;
    shape.pen = pen;
    shape.filled = filled;
    shape.device = device;
    shapes.push_back(std::move(shape));
}

void Scene::line(Tone tone, double x1, double y1, double x2, double y2, double pen, bool dashed) {
    Shape shape;
    shape.kind = Shape::Kind::line;
    shape.tone = tone;
    shape.area = {x1, y1, x2 - x1, y2 - y1};
    shape.pen = pen;
    shape.dashed = dashed;
    shapes.push_back(std::move(shape));
}

void Scene::text(Tone tone, Area area, const std::string& text, double size, Align align,
                 bool bold) {
    if (text.empty()) return;
    Shape shape;
    shape.kind = Shape::Kind::text;
    shape.tone = tone;
    shape.area = area;
    shape.text = shortened(text, size, area.width, bold);
    shape.size = size;
    shape.align = align;
    shape.bold = bold;
    shapes.push_back(std::move(shape));
}

void Scene::upright(Tone tone, Area area, const std::string& text, double size,
                    const std::string& device) {
    if (text.empty()) return;
    Shape shape;
    shape.kind = Shape::Kind::text;
    shape.tone = tone;
    shape.area = area;
    shape.text = shortened(text, size, area.height, false);
    shape.size = size;
    shape.align = Align::centre;
    shape.upright = true;
    shape.device = device;
    shapes.push_back(std::move(shape));
}

void Scene::place(const Scene& other, double x, double y, double factor) {
    for (Shape shape : other.shapes) {
        shape.area = {x + shape.area.x * factor, y + shape.area.y * factor,
                      shape.area.width * factor, shape.area.height * factor};
        shape.pen *= factor;
        shape.size *= factor;
        shapes.push_back(std::move(shape));
    }
}

const Shape* pick(const Scene& scene, double x, double y) {
    for (auto shape = scene.shapes.rbegin(); shape != scene.shapes.rend(); ++shape)
        if (!shape->device.empty() && shape->kind != Shape::Kind::line && shape->area.holds(x, y))
            return &*shape;
    return nullptr;
}

} // namespace backplate
