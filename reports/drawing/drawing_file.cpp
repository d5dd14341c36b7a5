#include "reports/drawing/drawing_file.h"

#include <algorithm>
#include <memory>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include "pricing/values/faults.h"
#include "reports/drawing/paint.h"
#include "reports/file_beside.h"

namespace backplate {
namespace {

constexpr double points_per_mm = 72 / 25.4;
constexpr double most_pixels = 30000; ///< of a side: the picture library takes 32,767

struct Release {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Surface = std::unique_ptr<cairo_surface_t, Release>;
using Context = std::unique_ptr<cairo_t, Release>;

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void expect_drawn(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw OutsideFault(std::string("the drawing cannot be made: ") +
                           cairo_status_to_string(status));
}

void finish(const Surface& surface, const Context& context) {
    expect_drawn(cairo_status(context.get()));
    cairo_surface_finish(surface.get());
    expect_drawn(cairo_surface_status(surface.get()));
}

struct Size {
    double width = 0, height = 0;
};

Size below_each_other(const std::vector<Scene>& sheets) {
    Size size;
    for (const Scene& sheet : sheets) {
        size.width = std::max(size.width, sheet.width);
        size.height += sheet.height;
    }
    return size;
}

void paint_all(const std::vector<Scene>& sheets, double scale, cairo_t* context) {
    for (const Scene& sheet : sheets) {
        paint(sheet, print_palette(), scale, context);
        cairo_translate(context, 0, sheet.height * scale);
    }
}

std::string pdf_bytes(const std::vector<Scene>& sheets, const std::string& title, Date created) {
    std::string bytes;
    const Scene& first = sheets.front();
    const Surface surface(cairo_pdf_surface_create_for_stream(
        &append, &bytes, first.width * points_per_mm, first.height * points_per_mm));
    const std::string day = created.text() + "T00:00:00Z";
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Backplate");
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, day.c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_MOD_DATE, day.c_str());
    const Context context(cairo_create(surface.get()));
    for (const Scene& sheet : sheets) {
        cairo_pdf_surface_set_size(surface.get(), sheet.width * points_per_mm,
                                   sheet.height * points_per_mm);
        paint(sheet, print_palette(), points_per_mm, context.get());
        cairo_show_page(context.get());
    }
    finish(surface, context);
    return bytes;
}

std::string svg_bytes(const std::vector<Scene>& sheets) {
    std::string bytes;
    const Size size = below_each_other(sheets);
    const Surface surface(cairo_svg_surface_create_for_stream(
        &append, &bytes, size.width * points_per_mm, size.height * points_per_mm));
    const Context context(cairo_create(surface.get()));
    paint_all(sheets, points_per_mm, context.get());
    finish(surface, context);
    return bytes;
}

} // namespace

DrawingKind drawing_kind(const std::string& path) {
    for (const auto& [end, kind] :
         {std::pair{".pdf", DrawingKind::pdf}, std::pair{".svg", DrawingKind::svg},
          std::pair{".png", DrawingKind::png}})
        if (path.ends_with(end)) return kind;
    return DrawingKind::unknown;
}

std::string png_bytes(const std::vector<Scene>& sheets, double dots_per_inch) {
    std::string bytes;
    const Size size = below_each_other(sheets);
    const double scale =
        std::min(dots_per_inch / 25.4, most_pixels / std::max(size.width, size.height));
    const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                     static_cast<int>(size.width * scale + 0.5),
                                                     static_cast<int>(size.height * scale + 0.5)));
    const Context context(cairo_create(surface.get()));
    paint_all(sheets, scale, context.get());
    expect_drawn(cairo_status(context.get()));
    expect_drawn(cairo_surface_write_to_png_stream(surface.get(), &append, &bytes));
    return bytes;
}

void write_drawing(const std::vector<Scene>& sheets, const std::string& title, Date created,
                   const std::string& path) {
    switch (drawing_kind(path)) {
    case DrawingKind::pdf: return replace_file(path, pdf_bytes(sheets, title, created));
    case DrawingKind::svg: return replace_file(path, svg_bytes(sheets));
    case DrawingKind::png: return replace_file(path, png_bytes(sheets, 150));
    case DrawingKind::unknown: break;
    }
    throw BadInput(path + ": expected a name that ends in .pdf, .svg or .png");
}

} // namespace backplate
