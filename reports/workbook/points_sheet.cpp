#include <string>
#include <vector>

#include "pricing/values/decimal.h"
#include "reports/price_steps_text.h"
#include "reports/wording.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

enum Column { box, boxes, signal, meaning, used, required, fitted, spare, headroom };
enum ModuleColumn { module_box, module_boxes, module_part, module_text, module_count };

constexpr int head_row = 3, first_row = 4;

std::vector<ColumnHead> heads() {
    return {{"Box", 14},
            {"Boxes", 8, true},
            {"Signal", 18},
            {"Meaning", 42},
            {"Used", 9, true},
            {"Required", 10, true},
            {"Fitted", 13, true},
            {"Spare, % of used", 12, true},
            {"Free at no further module", 13, true}};
}

/// Spare of used in percent with one decimal.
double spare_percent(const PointResult& point) {
    const auto tenths =
        multiply_divide(point.fitted - point.used, 1000, point.used, Rounding::half_away);
    return static_cast<double>(tenths) / 10;
}

void write_point(const Source& source, Page& page, const PointResult& point, int row) {
    const Signal* known = source.rules.find_signal(point.signal);
    page.text({row, box}, point.box, look::wrapped());
    page.number({row, boxes}, source.boxes_of(point.box), look::count());
    page.text({row, signal}, point.signal, look::text());
    page.text({row, meaning}, known == nullptr ? "" : known->meaning, look::wrapped());
    page.number({row, used}, point.used, look::count());
    page.number({row, required}, point.required, look::count());
    page.number({row, fitted}, point.fitted, look::count());
    if (point.used > 0) {
        const std::string of = Cell{row, used}.text();
        page.formula({row, spare},
                     "ROUND((" + Cell{row, fitted}.text() + "-" + of + ")*100/" + of + ",1)",
                     spare_percent(point), look::one_decimal());
    }
    page.number({row, headroom}, point.headroom, look::count());
}

void write_points_total(const Source& source, Page& page, int row) {
    for (int column = box; column <= headroom; ++column)
        page.blank({row, column}, look::total(look::text()));
    page.text({row, signal}, "All boxes", look::total(look::text()));
    const auto times_boxes = [&](int column, int PointResult::*figure) {
        std::int64_t sum = 0;
        for (const PointResult& point : source.estimate.points)
            sum += std::int64_t{point.*figure} * source.boxes_of(point.box);
        // The headings stand in the sum as text, so that an empty table has a total too.
        page.formula({row, column},
                     "SUMPRODUCT(" + range_text({head_row, boxes}, {row - 1, boxes}) + "," +
                         range_text({head_row, column}, {row - 1, column}) + ")",
                     static_cast<double>(sum), look::total(look::count()));
    };
    times_boxes(used, &PointResult::used);
    times_boxes(required, &PointResult::required);
    times_boxes(fitted, &PointResult::fitted);
}

std::string description_of(const Source& source, const std::string& part) {
    for (const BillLine& line : source.estimate.bill)
        if (line.part == part) return line.description;
    return {};
}

int write_modules(const Source& source, Page& page, int row) {
    page.section(row++, headroom, "Modules of one box");
    page.header(
        row++,
        {{"Box"}, {"Boxes", 0, true}, {"Part"}, {"Description"}, {"Pieces", 0, true}, {"Role"}});
    for (const BoxResult& result : source.estimate.boxes)
        for (const ModuleResult& module : result.modules) {
            page.text({row, module_box}, result.name, look::wrapped());
            page.number({row, module_boxes}, result.quantity, look::count());
            page.text({row, module_part}, module.part, look::wrapped());
            page.text({row, module_text}, description_of(source, module.part), look::wrapped());
            page.number({row, module_count}, module.quantity, look::count());
            page.text({row, module_count + 1}, plain_words(module.role), look::text());
            ++row;
        }
    return row;
}

/// A step, or none within what was tried.
struct StepRow {
    int points = 0;
    std::string text;
    std::optional<Money> point_price, price, difference;
};

std::vector<StepRow> step_rows(const PriceSteps& found) {
    std::vector<StepRow> rows;
    for (const PriceStep& step : found.steps)
        rows.push_back({step.points, step_text(step, found.box), step.point_price, step.price,
                        step.difference()});
    if (rows.empty())
        rows.push_back({found.looked_at, "no step so far", found.point_price, {}, {}});
    return rows;
}

void write_steps(const Source& source, const FoundSteps& steps, Page& page, int row) {
    page.section(row++, headroom, "Further points, price of the job with each");
    page.header(row++, {{"Box"},
                        {"Boxes", 0, true},
                        {"Signal"},
                        {"What the point brings"},
                        {"Point", 0, true},
                        {"Each before it", 0, true},
                        {"Price", 0, true},
                        {"More", 0, true},
                        {""}});
    const auto money = [&](int column, const std::optional<Money>& amount) {
        if (amount)
            page.number({row, column}, amount->rounded(source.digits()).number(),
                        look::money(source.digits()));
    };
    for (const PriceSteps& found : steps.signals)
        for (const StepRow& step : step_rows(found)) {
            page.text({row, box}, found.box, look::wrapped());
            page.number({row, boxes}, found.boxes, look::count());
            page.text({row, signal}, found.signal + (found.id.empty() ? "" : ", " + found.id),
                      look::wrapped());
            page.text({row, meaning}, step.text, look::wrapped());
            page.number({row, used}, step.points, look::count());
            money(required, step.point_price);
            money(fitted, step.price);
            money(spare, step.difference);
            ++row;
        }
}

} // namespace

void write_points(const Source& source, const FoundSteps& steps, Page& page) {
    const auto columns = heads();
    page.widths(columns);
    write_heading(source, page, "Points", "per box; spare is what the fitted modules give");
    page.header(head_row, columns);
    page.freeze_above(first_row);
    page.repeat_row(head_row);
    int row = first_row;
    for (const PointResult& point : source.estimate.points) write_point(source, page, point, row++);
    page.filter({head_row, box}, {row == first_row ? head_row : row - 1, headroom});
    write_points_total(source, page, row);
    row = write_modules(source, page, row + 2);
    if (!steps.signals.empty()) write_steps(source, steps, page, row + 1);
    page.print(source.print(true));
}

} // namespace backplate
