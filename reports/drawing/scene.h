#pragma once

#include <string>
#include <vector>

namespace backplate {

/// A rectangle in millimetres of the scene, x to the right, y down.
struct Area {
    double x = 0, y = 0, width = 0, height = 0;
    double right() const { return x + width; }
    double bottom() const { return y + height; }
    bool holds(double at_x, double at_y) const {
        return at_x >= x && at_x < right() && at_y >= y && at_y < bottom();
    }
    friend bool operator==(const Area&, const Area&) = default;
};

/// What a shape stands for; the palette says how it looks. The bands of devices come first.
enum class Tone {
    mains,
    supply,
    platform,
    other,
    terminals,
    door,
    paper,
    ink,
    faint, ///< less important text and thin lines
    box,   ///< enclosure, door leaf
    plate,
    duct,
    rail,
    room, ///< free rail and free plate
    dimension,
    heading, ///< of a table
    caution
};

enum class Align { left, centre, right };

/// One thing to be drawn. A line goes from the upper left corner of its area to the lower right one
/// (height may be negative). Text stands within its area: centred over the height, aligned over the
/// width, upright turned by a quarter to the left.
struct Shape {
    enum class Kind { box, round, line, text };
    Kind kind = Kind::box;
    Tone tone = Tone::ink;
    Area area;
    bool filled = false;
    double pen = 0; ///< width of the outline or line, mm; 0: none
    bool dashed = false;
    std::string text;
    double size = 0; ///< of the text, mm (the font's em)
    Align align = Align::left;
    bool upright = false, bold = false;
    std::string device; ///< id of the device that it belongs to; empty: none
};

/// A sheet or a panel as shapes, drawn in their order. Plain values.
struct Scene {
    double width = 0, height = 0; ///< mm
    std::string title;
    std::vector<Shape> shapes;

    void box(Tone tone, Area area, double pen, bool filled = true, const std::string& device = {});
    void line(Tone tone, double x1, double y1, double x2, double y2, double pen,
              bool dashed = false);
    /// Text that is shortened with an ellipsis where the area is too narrow for it.
    void text(Tone tone, Area area, const std::string& text, double size, Align align = Align::left,
              bool bold = false);
    void upright(Tone tone, Area area, const std::string& text, double size,
                 const std::string& device = {});
    /// Another scene in this one: its upper left corner at (x, y), its millimetres times `factor`.
    void place(const Scene& other, double x, double y, double factor);
};

/// The device under a point of the scene: the topmost shape of one that holds the point; nothing
/// (null) where there is none.
const Shape* pick(const Scene& scene, double x, double y);

} // namespace backplate
