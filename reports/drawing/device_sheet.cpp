#include <algorithm>

#include "reports/drawing/sheets.h"
#include "reports/drawing/views.h"

namespace backplate {
namespace {

/// Devices of one part at one kind of place.
struct DeviceRow {
    const PlacedDevice* device = nullptr;
    std::vector<std::string> ids;
    std::vector<int> rows;
    int pieces = 0;
};

std::string strip_of(const PlacedDevice& device) {
    return device.kind == "terminal" ? device.id.substr(0, device.id.find(':')) : device.id;
}

std::vector<DeviceRow> device_rows(const Layout& layout) {
    std::vector<DeviceRow> rows;
    for (const PlacedDevice& device : layout.devices) {
        auto found = std::find_if(rows.begin(), rows.end(), [&](const DeviceRow& row) {
            return row.device->part == device.part && row.device->text == device.text &&
                   row.device->face == device.face && row.device->kind == device.kind;
        });
        if (found == rows.end()) found = rows.insert(rows.end(), DeviceRow{&device, {}, {}, 0});
        ++found->pieces;
        const std::string id = strip_of(device);
        if (found->ids.empty() || found->ids.back() != id) found->ids.push_back(id);
        if (device.face == Face::plate &&
            std::find(found->rows.begin(), found->rows.end(), device.row) == found->rows.end())
            found->rows.push_back(device.row);
    }
    return rows;
}

std::string place_text(const DeviceRow& row) {
    switch (row.device->face) {
    case Face::door: return "door";
    case Face::wall: return "wall";
    case Face::inside: return "inside, off the rails";
    case Face::plate: break;
    }
    std::string text = row.rows.size() > 1 ? "rows " : "row ";
    for (std::size_t i = 0; i < row.rows.size(); ++i)
        text += (i ? ", " : "") + std::to_string(row.rows[i] + 1);
    return text;
}

std::string size_of(const PlacedDevice& device, bool inch) {
    const auto text = [&](double length) {
        return length > 0 ? dimension_text(length, inch) : std::string("–");
    };
    if (drawn_round(device)) return "ø " + text(device.height_mm) + " × " + text(device.depth_mm);
    return text(device.round ? 0 : device.width_mm) + " × " + text(device.height_mm) + " × " +
           text(device.depth_mm);
}

SheetTable device_table(const SheetSource& source) {
    SheetTable table;
    table.columns = {{"Id", 0.16},        {"Pieces", 0.07, Align::right},
                     {"Part", 0.12},      {"What it is", 0.36},
                     {"W × H × D", 0.15}, {"Place", 0.14}};
    table.size = 2.3;
    for (const DeviceRow& row : device_rows(source.box().layout))
        table.rows.push_back({id_list(row.ids), std::to_string(row.pieces), row.device->part,
                              description_of(source, *row.device),
                              size_of(*row.device, source.inch()), place_text(row)});
    return table;
}

} // namespace

bool add_device_sheets(const SheetSource& source, std::vector<Scene>& sheets) {
    const SheetTable table = device_table(source);
    SheetPlan plan;
    new_sheet(source, "", "", plan);
    const double high = table_row * table.size * static_cast<double>(table.rows.size() + 1) + 12;
    const double below = distribution_height(source);
    const bool together = below > 0 && high + below <= plan.drawing.height;
    for (std::size_t next = 0; next < table.rows.size();) {
        Scene sheet =
            new_sheet(source, together ? "devices and 24 V distribution" : "devices", "", plan);
        next = add_table(sheet, table, plan.drawing, next);
        if (together)
            add_distribution(sheet, source,
                             {plan.drawing.x, plan.drawing.y + high, plan.drawing.width,
                              plan.drawing.height - high},
                             0);
        sheets.push_back(std::move(sheet));
    }
    return together;
}

} // namespace backplate
