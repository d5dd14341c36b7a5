#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "pricing/job/estimate.h"
#include "reports/drawing/scene.h"

namespace backplate {

/// The sheets of every box, in millimetres of paper: the panel inside; door and depth; devices;
/// 24 V distribution; modules with their channels. A3, in the practice of North America 11 × 17 in,
/// both lying. `draft` marks every sheet. Empty where nothing builds the job.
std::vector<Scene> drawing_sheets(const Estimate& estimate, bool draft);

/// What the sheets of one box are made from.
struct SheetSource {
    const Estimate& estimate;
    std::size_t at = 0; ///< of the box
    bool draft = false;
    const BoxResult& box() const { return estimate.boxes[at]; }
    bool inch() const { return estimate.request.inch; }
};

/// The places of a sheet: the drawing on the left, a column on its right, the title block below it.
struct SheetPlan {
    Area drawing, column;
};

/// An empty sheet with its frame and title block but for its number.
Scene new_sheet(const SheetSource& source, const std::string& title, const std::string& scale,
                SheetPlan& plan);
/// Writes "sheet 2 of 7" into the title block.
void number_sheet(Scene& sheet, std::size_t number, std::size_t count);

/// A table on a sheet: headings, then rows, from the top of the area on.
struct SheetTable {
    struct Column {
        std::string title;
        double width = 0; ///< share of the table's width
        Align align = Align::left;
    };
    std::vector<Column> columns;
    std::vector<std::vector<std::string>> rows;
    double size = 2.1; ///< of the text, mm
};
constexpr double table_row = 1.85; ///< height of a row in sizes of its text
/// Draws the rows from `first` on, as many as fit; the next row to draw.
std::size_t add_table(Scene& scene, const SheetTable& table, const Area& area, std::size_t first);

/// Ids in order: "A1–A3, A7".
std::string id_list(const std::vector<std::string>& ids);
/// Description of a part of the box's bill, else the text itself.
std::string description_of(const SheetSource& source, const PlacedDevice& device);

/// Height that the 24 V distribution takes in all, mm; 0: the box has none.
double distribution_height(const SheetSource& source);
/// Each supply above the bar that it feeds with its channels in rows: from the row `first` on as
/// many as fit; the next row.
std::size_t add_distribution(Scene& sheet, const SheetSource& source, const Area& area,
                             std::size_t first);

// The sheets of one box, each kind in a file of its own.
void add_panel_sheets(const SheetSource& source, std::vector<Scene>& sheets);
/// Devices, and below them the 24 V distribution where it fits on the same sheet; true where it
/// does.
bool add_device_sheets(const SheetSource& source, std::vector<Scene>& sheets);
void add_distribution_sheets(const SheetSource& source, std::vector<Scene>& sheets);
void add_channel_sheets(const SheetSource& source, std::vector<Scene>& sheets);

} // namespace backplate
