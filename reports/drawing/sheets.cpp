#include "reports/drawing/sheets.h"
#include "pricing/values/document_units.h"

#include <algorithm>

#include "reports/drawing/text_size.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr double edge = 8, column_width = 118, title_height = 58, gap = 4;
constexpr const char* caution =
    "This is an estimate, not a design. A qualified person must review it before anything is "
    "built. Cables are taken to enter from below.";

/// A line of the title block: word and value.
void title_line(Scene& scene, const Area& area, const std::string& word, const std::string& text,
                double size, bool bold = false) {
    scene.text(Tone::faint, {area.x, area.y, 20, area.height}, word, 1.9);
    scene.text(Tone::ink, {area.x + 20, area.y, area.width - 20, area.height}, text, size,
               Align::left, bold);
}

std::string marks_of(const SheetSource& source) {
    std::string marks = source.draft ? "DRAFT" : "";
    if (source.estimate.demo_data)
        marks +=
            std::string(marks.empty() ? "" : ", ") + "demo data: parts and prices are invented";
    return marks;
}

std::string box_line(const BoxResult& box) {
    return box.name + (box.quantity > 1 ? ", " + std::to_string(box.quantity) + " alike" : "");
}

void add_title_block(Scene& sheet, const SheetSource& source, const std::string& scale,
                     const Area& block) {
    const BidRequest& request = source.estimate.request;
    sheet.line(Tone::ink, block.x, block.y, block.right(), block.y, 0.5);
    const double left = block.x + 3, width = block.width - 6;
    const auto line = [&](double y, double height) {
        return Area{left, block.y + y, width, height};
    };
    title_line(sheet, line(2, 6), "job", request.title, 3.2, true);
    title_line(sheet, line(8.4, 5), "client", request.client, 2.6);
    title_line(sheet, line(13.6, 5), "box", box_line(source.box()), 2.6);
    title_line(sheet, line(18.8, 5), "sheet", sheet.title, 2.6, true);
    std::string state = request.date.text();
    if (const std::string saved = saved_text(request); !saved.empty()) state += ", " + saved;
    title_line(sheet, line(24, 5), "date", state, 2.6);
    if (!request.prepared_by.empty() || !request.enquiry.empty())
        title_line(sheet, line(29.2, 5), "by",
                   request.prepared_by +
                       (request.prepared_by.empty() || request.enquiry.empty() ? "" : ", ") +
                       (request.enquiry.empty() ? "" : "enquiry " + request.enquiry),
                   2.6);
    title_line(sheet, line(34.4, 5), "scale",
               scale.empty() ? "–" : scale + ", dimensions in " + length_unit(source.inch()), 2.6);
    double y = 40.2;
    if (const std::string marks = marks_of(source); !marks.empty()) {
        sheet.text(Tone::caution, line(y, 4.4), marks, 2.5, Align::left, true);
        y += 4.4;
    }
    for (const std::string& text : wrapped(caution, 1.9, width)) {
        sheet.text(Tone::faint, line(y, 2.9), text, 1.9);
        y += 2.9;
    }
}

} // namespace

Scene new_sheet(const SheetSource& source, const std::string& title, const std::string& scale,
                SheetPlan& plan) {
    Scene sheet;
    const bool letter = source.estimate.request.north_america;
    sheet.width = letter ? 431.8 : 420;
    sheet.height = letter ? 279.4 : 297;
    sheet.title = source.box().name + ", " + title;
    const Area frame{edge, edge, sheet.width - 2 * edge, sheet.height - 2 * edge};
    const double split = frame.right() - column_width;
    sheet.box(Tone::ink, frame, 0.6, false);
    sheet.line(Tone::ink, split, frame.y, split, frame.bottom(), 0.35);
    add_title_block(sheet, source, scale,
                    {split, frame.bottom() - title_height, column_width, title_height});
    plan.drawing = {frame.x + gap, frame.y + gap, split - frame.x - 2 * gap,
                    frame.height - 2 * gap};
    plan.column = {split + 3, frame.y + gap, column_width - 6,
                   frame.height - title_height - 2 * gap};
    return sheet;
}

void number_sheet(Scene& sheet, std::size_t number, std::size_t count) {
    const double right = sheet.width - edge;
    sheet.text(Tone::ink, {right - 33, sheet.height - edge - title_height + 34.4, 30, 5},
               "sheet " + std::to_string(number) + " of " + std::to_string(count), 2.6,
               Align::right);
}

std::size_t add_table(Scene& scene, const SheetTable& table, const Area& area, std::size_t first) {
    const double high = table_row * table.size;
    double y = area.y;
    const auto write = [&](const std::vector<std::string>& cells, bool heading) {
        double x = area.x;
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            const auto& column = table.columns[i];
            const double width = column.width * area.width, pad = table.size * 0.4;
            if (i < cells.size())
                scene.text(Tone::ink, {x + pad, y, width - 2 * pad, high}, cells[i], table.size,
                           column.align, heading);
            x += width;
        }
        y += high;
        scene.line(Tone::faint, area.x, y, area.right(), y, heading ? 0.3 : 0.1);
    };
    std::vector<std::string> heads;
    for (const auto& column : table.columns) heads.push_back(column.title);
    scene.box(Tone::heading, {area.x, y, area.width, high}, 0);
    write(heads, true);
    while (first < table.rows.size() && y + high <= area.bottom() + 1e-6)
        write(table.rows[first++], false);
    return first;
}

namespace {

/// "A12" -> "A" and 12; number 0 where the id is of another form.
std::pair<std::string, int> parted(const std::string& id) {
    const auto digit = id.find_first_of("0123456789");
    if (digit == std::string::npos || id.find(':') != std::string::npos) return {id, 0};
    return {id.substr(0, digit), std::stoi(id.substr(digit))};
}

} // namespace

std::string id_list(const std::vector<std::string>& ids) {
    std::string text;
    for (std::size_t i = 0; i < ids.size();) {
        std::size_t last = i;
        const auto [letter, number] = parted(ids[i]);
        while (number > 0 && last + 1 < ids.size() &&
               parted(ids[last + 1]) == std::pair{letter, number + static_cast<int>(last + 1 - i)})
            ++last;
        text += (text.empty() ? "" : ", ") + ids[i];
        if (last > i) text += (last == i + 1 ? ", " : "–") + ids[last];
        i = last + 1;
    }
    return text;
}

std::string description_of(const SheetSource& source, const PlacedDevice& device) {
    for (const BillLine& line : source.estimate.bill)
        if (line.box == source.box().name && !device.part.empty() && line.part == device.part)
            return line.description;
    return device.text.empty() ? device.part : device.text;
}

std::vector<Scene> drawing_sheets(const Estimate& estimate, bool draft) {
    std::vector<Scene> sheets;
    if (!estimate.buildable) return sheets;
    for (std::size_t at = 0; at < estimate.boxes.size(); ++at) {
        if (estimate.boxes[at].layout.plate_width_mm <= 0) continue;
        const SheetSource source{estimate, at, draft};
        add_panel_sheets(source, sheets);
        if (!add_device_sheets(source, sheets)) add_distribution_sheets(source, sheets);
        add_channel_sheets(source, sheets);
    }
    for (std::size_t i = 0; i < sheets.size(); ++i) number_sheet(sheets[i], i + 1, sheets.size());
    return sheets;
}

} // namespace backplate
