#include "reports/drawing/paint.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include <pango/pangocairo.h>

namespace backplate {
namespace {

constexpr const char* font = "DejaVu Sans";
constexpr double size_in_layout = 100; ///< texts are shaped at one size and scaled, so that no
                                       ///< resolution changes their widths

struct Release {
    void operator()(void* object) const { g_object_unref(object); }
};
using Layout_ = std::unique_ptr<PangoLayout, Release>;

Layout_ layout_of(const std::string& text, bool bold, cairo_t* context) {
    Layout_ layout(pango_cairo_create_layout(context));
    PangoContext* pango = pango_layout_get_context(layout.get());
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(pango, options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(pango, 72);
    pango_context_set_round_glyph_positions(pango, FALSE);
    PangoFontDescription* description = pango_font_description_new();
    pango_font_description_set_family(description, font);
    pango_font_description_set_absolute_size(description, size_in_layout * PANGO_SCALE);
    if (bold) pango_font_description_set_weight(description, PANGO_WEIGHT_BOLD);
    pango_layout_set_font_description(layout.get(), description);
    pango_font_description_free(description);
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    return layout;
}

void set(cairo_t* context, const Colour& colour) {
    cairo_set_source_rgb(context, colour.red, colour.green, colour.blue);
}

void trace(const Shape& shape, cairo_t* context) {
    const Area& area = shape.area;
    if (shape.kind == Shape::Kind::round) {
        cairo_save(context);
        cairo_translate(context, area.x + area.width / 2, area.y + area.height / 2);
        cairo_scale(context, area.width / 2, area.height / 2);
        cairo_new_sub_path(context);
        cairo_arc(context, 0, 0, 1, 0, 2 * std::numbers::pi);
        cairo_restore(context);
    } else {
        cairo_rectangle(context, area.x, area.y, area.width, area.height);
    }
}

/// Lines of a pattern over the area, so far apart in mm of the scene.
void trace_pattern(const Area& area, Pattern pattern, double step, cairo_t* context) {
    const auto slanted = [&](bool falling) {
        for (double x = area.x - area.height; x < area.right(); x += step) {
            cairo_move_to(context, x, falling ? area.y : area.bottom());
            cairo_line_to(context, x + area.height, falling ? area.bottom() : area.y);
        }
    };
    if (pattern == Pattern::falling || pattern == Pattern::crossed) slanted(true);
    if (pattern == Pattern::rising || pattern == Pattern::crossed) slanted(false);
    if (pattern == Pattern::dots)
        for (double y = area.y + step / 2; y < area.bottom(); y += step)
            for (double x = area.x + step / 2; x < area.right(); x += step) {
                cairo_move_to(context, x, y);
                cairo_line_to(context, x + step / 12, y);
            }
}

void paint_pattern(const Shape& shape, const Look& look, cairo_t* context) {
    if (look.pattern == Pattern::none || shape.pen <= 0) return;
    cairo_save(context);
    trace(shape, context);
    cairo_clip(context);
    trace_pattern(shape.area, look.pattern, shape.pen * 14, context);
    cairo_set_source_rgba(context, look.line.red, look.line.green, look.line.blue, 0.24);
    cairo_set_line_width(context, shape.pen * 0.7);
    cairo_stroke(context);
    cairo_restore(context);
}

void dash(const Shape& shape, cairo_t* context) {
    const double lengths[] = {shape.pen * 8, shape.pen * 5};
    if (shape.dashed) cairo_set_dash(context, lengths, 2, 0);
}

void paint_box(const Shape& shape, const Look& look, cairo_t* context) {
    if (shape.filled) {
        trace(shape, context);
        set(context, look.fill);
        cairo_fill(context);
        paint_pattern(shape, look, context);
    }
    if (shape.pen <= 0) return;
    dash(shape, context);
    trace(shape, context);
    set(context, look.line);
    cairo_set_line_width(context, shape.pen);
    cairo_stroke(context);
    cairo_set_dash(context, nullptr, 0, 0);
}

void paint_line(const Shape& shape, const Look& look, cairo_t* context) {
    dash(shape, context);
    set(context, look.line);
    cairo_set_line_width(context, shape.pen);
    cairo_move_to(context, shape.area.x, shape.area.y);
    cairo_line_to(context, shape.area.right(), shape.area.bottom());
    cairo_stroke(context);
    cairo_set_dash(context, nullptr, 0, 0);
}

void paint_text(const Shape& shape, const Look& look, cairo_t* context) {
    const Layout_ layout = layout_of(shape.text, shape.bold, context);
    int width = 0, height = 0;
    pango_layout_get_size(layout.get(), &width, &height);
    const double unit = shape.size / size_in_layout / PANGO_SCALE;
    const double room = shape.upright ? shape.area.height : shape.area.width;
    const double squeeze = width * unit > room && width > 0 ? room / (width * unit) : 1;
    const double taken = width * unit * squeeze;
    double along = 0;
    if (shape.align == Align::centre) along = (room - taken) / 2;
    if (shape.align == Align::right) along = room - taken;
    cairo_save(context);
    const double across =
        ((shape.upright ? shape.area.width : shape.area.height) - height * unit) / 2;
    if (shape.upright) {
        cairo_translate(context, shape.area.x + across, shape.area.bottom() - along);
        cairo_rotate(context, -std::numbers::pi / 2);
    } else {
        cairo_translate(context, shape.area.x + along, shape.area.y + across);
    }
    cairo_scale(context, unit * PANGO_SCALE * squeeze, unit * PANGO_SCALE);
    set(context, look.text);
    cairo_move_to(context, 0, 0);
    pango_cairo_show_layout(context, layout.get());
    cairo_restore(context);
}

} // namespace

void paint(const Scene& scene, const Palette& palette, double scale, cairo_t* context) {
    cairo_save(context);
    cairo_scale(context, scale, scale);
    cairo_rectangle(context, 0, 0, scene.width, scene.height);
    cairo_clip(context);
    set(context, palette.of(Tone::paper).fill);
    cairo_paint(context);
    for (const Shape& shape : scene.shapes) {
        const Look& look = palette.of(shape.tone);
        switch (shape.kind) {
        case Shape::Kind::box:
        case Shape::Kind::round: paint_box(shape, look, context); break;
        case Shape::Kind::line: paint_line(shape, look, context); break;
        case Shape::Kind::text: paint_text(shape, look, context); break;
        }
    }
    cairo_restore(context);
}

double measured_width(const std::string& text, double size, bool bold, cairo_t* context) {
    const Layout_ layout = layout_of(text, bold, context);
    int width = 0, height = 0;
    pango_layout_get_size(layout.get(), &width, &height);
    return width * size / size_in_layout / PANGO_SCALE;
}

} // namespace backplate
