#include <set>
#include <string>
#include <vector>

#include "pricing/values/decimal.h"
#include "reports/wording.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

enum Column { box, activity, work_class, once, each, hours, rate, cost };

constexpr int head_row = 3, first_row = 4;

std::vector<ColumnHead> heads(const std::string& currency) {
    return {{"Box", 12},
            {"Activity", 30},
            {"Class", 16},
            {"Once, h", 11, true},
            {"Each box, h", 11, true},
            {"Hours", 12, true},
            {"Rate, " + currency + "/h", 12, true},
            {"Cost, " + currency, 14, true}};
}

std::string rounded(const std::string& expression, int digits) {
    return "ROUND(" + expression + "," + steps_text(digits, 0) + ")";
}

void write_line(const Source& source, Page& page, const LabourLine& labour, int row) {
    page.text({row, box}, labour.box.empty() ? "job" : labour.box, look::wrapped());
    page.text({row, activity}, plain_words(labour.activity), look::wrapped());
    page.text({row, work_class}, plain_words(labour.work_class), look::text());
    page.number({row, once}, labour.once.number(), look::hours());
    page.number({row, each}, labour.each.number(), look::hours());
    page.number({row, hours}, labour.hours.number(), look::changeable(look::hours()));
    page.number({row, rate}, labour.rate.number(),
                look::changeable(look::unit_price(source.digits())));
    page.formula({row, cost},
                 rounded(Cell{row, hours}.text() + "*" + Cell{row, rate}.text(), source.digits()),
                 labour.cost.number(), look::money(source.digits()));
}

void write_total(const Source& source, Page& page, int row) {
    Hours sum;
    Money paid;
    for (const LabourLine& labour : source.estimate.labour) {
        sum += labour.hours;
        paid += labour.cost;
    }
    if (source.estimate.price) paid = source.estimate.price->labour;
    for (int column = box; column <= cost; ++column)
        page.blank({row, column}, look::total(look::text()));
    page.text({row, activity}, "Labour, whole job", look::total(look::text()));
    // The heading stands in the sums as text, so that an empty table has totals too.
    const auto above = [&](int column) {
        return "SUM(" + range_text({head_row, column}, {row - 1, column}) + ")";
    };
    page.formula({row, hours}, rounded(above(hours), Hours::places), sum.number(),
                 look::total(look::hours()));
    page.name_cell({row, hours}, "hours_total");
    page.formula({row, cost}, rounded(above(cost), source.digits()), paid.number(),
                 look::total(look::money(source.digits())));
    page.name_cell({row, cost}, "labour");
}

/// Hours and cost of one class, summed over the lines that name it.
void write_class(const Source& source, Page& page, const std::string& name, int row, int last) {
    Hours sum;
    Money paid;
    for (const LabourLine& labour : source.estimate.labour) {
        if (labour.work_class != name) continue;
        sum += labour.hours;
        paid += labour.cost;
    }
    page.text({row, work_class}, plain_words(name), look::text());
    const auto of_class = [&](int column) {
        return "SUMPRODUCT(--EXACT(" + range_text({first_row, work_class}, {last, work_class}) +
               "," + Cell{row, work_class}.text() + ")," +
               range_text({first_row, column}, {last, column}) + ")";
    };
    page.formula({row, hours}, rounded(of_class(hours), Hours::places), sum.number(),
                 look::hours());
    page.formula({row, cost}, rounded(of_class(cost), source.digits()), paid.number(),
                 look::money(source.digits()));
}

} // namespace

void write_hours(const Source& source, Page& page) {
    const auto columns = heads(source.currency());
    page.widths(columns);
    write_heading(source, page, "Hours",
                  source.rules.norms_confirmed ? "" : "norms not yet confirmed by this shop");
    page.header(head_row, columns);
    page.freeze_above(first_row);
    page.repeat_row(head_row);
    const auto& lines = source.estimate.labour;
    int row = first_row;
    for (const LabourLine& labour : lines) write_line(source, page, labour, row++);
    const int last = row - 1;
    write_total(source, page, row);
    page.filter({head_row, box}, {last < first_row ? head_row : last, cost});
    row += 2;
    page.section(row++, cost, "By class");
    std::set<std::string> classes;
    for (const LabourLine& labour : lines) classes.insert(labour.work_class);
    for (const std::string& name : classes) write_class(source, page, name, row++, last);
    page.print(source.print(false));
}

} // namespace backplate
