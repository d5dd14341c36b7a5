#include <algorithm>
#include <array>

#include "pricing/values/document_units.h"
#include "reports/drawing/sheets.h"
#include "reports/drawing/text_size.h"
#include "reports/drawing/views.h"
#include "reports/wording.h"

namespace backplate {
namespace {

/// Scales of a sheet, those that scale rules show.
constexpr auto scales =
    std::array{1.0, 2.0, 2.5, 4.0, 5.0, 7.5, 8.0, 10.0, 12.5, 15.0, 20.0, 25.0, 50.0};
constexpr double label = 2.1; ///< size of labels on paper, mm

std::string scale_text(double scale) { return "1 : " + number_text(scale); }

using View = Scene (*)(const Estimate&, std::size_t, const ViewStyle&);

/// The largest scale at which the views fit side by side.
double scale_for(const SheetSource& source, const std::vector<View>& views, const Area& area) {
    for (const double scale : scales) {
        double width = 0, height = 0;
        for (const View view : views) {
            const Scene scene =
                view(source.estimate, source.at, {label * scale, true, source.inch()});
            width += scene.width / scale + (width > 0 ? 6 : 0);
            height = std::max(height, scene.height / scale);
        }
        if (width <= area.width && height <= area.height) return scale;
    }
    return scales.back();
}

/// Draws the views side by side in the middle of the area, their upper edges level.
void place_views(Scene& sheet, const SheetSource& source, const std::vector<View>& views,
                 double scale, const Area& area) {
    std::vector<Scene> scenes;
    double width = 0, height = 0;
    for (const View view : views) {
        Scene scene = view(source.estimate, source.at, {label * scale, true, source.inch()});
        if (scene.shapes.empty()) continue;
        width += scene.width / scale + (scenes.empty() ? 0 : 6);
        height = std::max(height, scene.height / scale);
        scenes.push_back(std::move(scene));
    }
    double x = area.x + (area.width - width) / 2;
    for (const Scene& scene : scenes) {
        sheet.place(scene, x, area.y + (area.height - height) / 2, 1 / scale);
        x += scene.width / scale + 6;
    }
}

/// Heading of a part of the column; the first free height below it.
double column_heading(Scene& sheet, const Area& column, double y, const std::string& text) {
    sheet.text(Tone::ink, {column.x, y, column.width, 5}, text, 2.8, Align::left, true);
    return y + 5.6;
}

/// "2 × " of a suite.
std::string pieces_text(int pieces) { return pieces > 1 ? std::to_string(pieces) + " × " : ""; }

double facts(Scene& sheet, const SheetSource& source, const Area& column, double y) {
    const BoxResult& box = source.box();
    const EnclosureResult& enclosure = box.enclosures.front();
    const bool inch = source.inch();
    std::vector<std::pair<std::string, std::string>> rows;
    if (enclosure.width_mm && enclosure.height_mm && enclosure.depth_mm)
        rows.emplace_back("Enclosure", pieces_text(enclosure.quantity) +
                                           (enclosure.part.empty() ? "" : enclosure.part + ", ") +
                                           size_text(*enclosure.width_mm, *enclosure.height_mm,
                                                     *enclosure.depth_mm, inch));
    else
        rows.emplace_back("Enclosure", "by the client; the plate is what is drawn");
    if (!enclosure.protection.empty() || !enclosure.material.empty())
        rows.emplace_back(
            "Mark", enclosure.protection +
                        (enclosure.material.empty() ? "" : ", " + plain_words(enclosure.material)));
    rows.emplace_back("Plate",
                      pieces_text(enclosure.quantity) +
                          plate_text(box.layout.plate_width_mm, box.layout.plate_height_mm, inch));
    rows.emplace_back("Ducts", length_text(box.layout.duct_mm, inch) + " wide");
    rows.emplace_back("Free rail",
                      number_text(enclosure.room_left_percent, 1) + " % of the occupied rail");
    std::string free;
    for (const FreePlate& plate : box.layout.free)
        free += (free.empty() ? "" : ", ") + length_text(plate.height_mm, inch);
    rows.emplace_back("Free plate", free + " high, below the lowest duct");
    for (const auto& [word, text] : rows) {
        sheet.text(Tone::faint, {column.x, y, 22, 4}, word, 2.1);
        sheet.text(Tone::ink, {column.x + 22, y, column.width - 22, 4}, text, 2.3);
        y += 4.2;
    }
    return y + 3;
}

/// Number of the row on its plate, in a suite after that of the plate: "3", "2.1".
std::string row_number(const Layout& layout, std::size_t row) {
    const int plate = layout.rows[row].enclosure;
    std::size_t first = row;
    while (first > 0 && layout.rows[first - 1].enclosure == plate) --first;
    return (layout.free.size() > 1 ? std::to_string(plate + 1) + "." : "") +
           std::to_string(row - first + 1);
}

/// What stands on the row, as ids: "Q1, T1", "X1–X4".
std::string ids_on(const Layout& layout, int row) {
    std::vector<std::string> ids;
    for (const PlacedDevice& device : layout.devices)
        if (device.face == Face::plate && device.row == row && device.kind != "terminal")
            ids.push_back(device.id);
    for (const TerminalStrip& strip : layout.strips)
        if (strip.row == row) ids.push_back(strip.id);
    return id_list(ids);
}

double rows_table(Scene& sheet, const SheetSource& source, const Area& column, double y) {
    const Layout& layout = source.box().layout;
    SheetTable table;
    table.columns = {{"Row", 0.09},
                     {"On it", 0.49},
                     {"High", 0.13, Align::right},
                     {"Occupied", 0.16, Align::right},
                     {"Free", 0.13, Align::right}};
    for (std::size_t i = 0; i < layout.rows.size(); ++i) {
        const LayoutRow& row = layout.rows[i];
        const auto text = [&](double length) { return dimension_text(length, source.inch()); };
        table.rows.push_back({row_number(layout, i), ids_on(layout, static_cast<int>(i)),
                              text(row.height_mm), text(row.used_mm),
                              text(layout.rail_mm - row.used_mm)});
    }
    const double high = table_row * table.size * static_cast<double>(table.rows.size() + 1);
    add_table(sheet, table, {column.x, y, column.width, high}, 0);
    return y + high + 4;
}

void legend(Scene& sheet, const SheetSource& source, const Area& column, double y) {
    constexpr auto rows =
        std::array{std::pair{Tone::mains, "mains: Q breakers and switches"},
                   std::pair{Tone::supply, "24 V supply: T supplies, R decoupling, G backup"},
                   std::pair{Tone::platform, "platform: A controllers, couplers, modules"},
                   std::pair{Tone::other, "other: F channels, K interfaces, U devices, E heaters"},
                   std::pair{Tone::terminals, "X terminal strips"},
                   std::pair{Tone::door, "door and walls: P, E"},
                   std::pair{Tone::room, "free rail and free plate"}};
    const Layout& layout = source.box().layout;
    for (const auto& [tone, text] : rows) {
        const Tone wanted = tone;
        const bool used = tone == Tone::room || tone == Tone::terminals ||
                          std::any_of(layout.devices.begin(), layout.devices.end(),
                                      [&](const PlacedDevice& device) {
                                          return device.kind != "terminal" && device.placed &&
                                                 tone_of(device) == wanted;
                                      });
        if (!used || y + 4.4 > column.bottom()) continue;
        sheet.box(tone, {column.x, y + 0.5, 8, 3.4}, 0.18);
        sheet.text(Tone::ink, {column.x + 10, y, column.width - 10, 4.4}, text, 2.1);
        y += 4.6;
    }
}

/// Middle of a door device from the left and the top of its door, in a suite with the door.
std::string place_text(const SheetSource& source, const PlacedDevice& device) {
    const auto text = [&](double length) { return dimension_text(length, source.inch()); };
    const bool suite = source.box().layout.free.size() > 1;
    return (suite ? "door " + std::to_string(device.enclosure + 1) + ": " : "") +
           text(device.x_mm + device.width_mm / 2) + ", " +
           text(device.y_mm + device.height_mm / 2);
}

} // namespace

void add_panel_sheets(const SheetSource& source, std::vector<Scene>& sheets) {
    SheetPlan plan;
    new_sheet(source, "", "", plan);
    const std::vector<View> inside{&panel_scene}, door{&door_scene, &depth_scene};
    const double scale = scale_for(source, inside, plan.drawing);
    Scene sheet = new_sheet(source, "panel inside", scale_text(scale), plan);
    place_views(sheet, source, inside, scale, plan.drawing);
    double y = column_heading(sheet, plan.column, plan.column.y, "Panel");
    y = facts(sheet, source, plan.column, y);
    y = column_heading(sheet, plan.column, y, "Rows, from the top");
    y = rows_table(sheet, source, plan.column, y);
    legend(sheet, source, plan.column, y);
    sheets.push_back(std::move(sheet));
    if (door_scene(source.estimate, source.at, {}).shapes.empty()) return;
    const double door_scale = std::max(scale_for(source, door, plan.drawing), scale);
    Scene leaf = new_sheet(source, "door and depth", scale_text(door_scale), plan);
    place_views(leaf, source, door, door_scale, plan.drawing);
    y = column_heading(leaf, plan.column, plan.column.y, "In the door");
    SheetTable table;
    table.columns = {
        {"Id", 0.1}, {"Part", 0.19}, {"Size", 0.25}, {"From left, top to its middle", 0.46}};
    for (const PlacedDevice& device : source.box().layout.devices) {
        if (device.face != Face::door) continue;
        const auto text = [&](double length) { return dimension_text(length, source.inch()); };
        table.rows.push_back({device.id, device.part.empty() ? device.text : device.part,
                              !device.placed ? "not drawn"
                              : drawn_round(device)
                                  ? "ø " + text(device.height_mm)
                                  : text(device.width_mm) + " × " + text(device.height_mm),
                              device.placed ? place_text(source, device) : ""});
    }
    if (table.rows.empty()) table.rows.push_back({"–", "nothing"});
    add_table(leaf, table, {plan.column.x, y, plan.column.width, plan.column.bottom() - y}, 0);
    sheets.push_back(std::move(leaf));
}

} // namespace backplate
