#include <string>
#include <vector>

#include "reports/number_format.h"
#include "reports/wording.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr int head_row = 3, first_row = 4, last_column = 4;

std::uint32_t colour_of(Severity severity) {
    switch (severity) {
    case Severity::stop: return look::alarm;
    case Severity::warning: return look::caution;
    case Severity::note: break;
    }
    return look::ink;
}

void write_finding(const Source& source, Page& page, const Finding& finding, int row) {
    page.text({row, 0}, plain_words(severity_word(finding.severity)),
              look::text().bolded().coloured(colour_of(finding.severity)));
    page.text({row, 1}, finding_title(finding, source.rules), look::wrapped());
    page.text({row, 2}, finding_text(finding, source.rules), look::wrapped());
    page.text({row, 3}, finding.where, look::wrapped().coloured(look::quiet));
    page.text({row, 4}, finding.code, look::wrapped().coloured(look::quiet));
}

void write_assumption(Page& page, const Assumption& assumption, bool inch, int number, int row) {
    std::string value = assumption.value == "null" ? "not stated" : assumption.value;
    const std::string in_inches = in_inch_units(value, assumption.unit, inch);
    if (!in_inches.empty())
        value = in_inches;
    else if (!assumption.unit.empty() && assumption.value != "null")
        value += " " + assumption.unit;
    page.number({row, 0}, number, look::text());
    page.text({row, 1}, value, look::wrapped());
    page.text({row, 2}, assumption.text, look::wrapped());
    page.text({row, 3}, assumption.field, look::wrapped().coloured(look::quiet));
    page.text({row, 4}, assumption.rule, look::wrapped().coloured(look::quiet));
}

} // namespace

void write_findings(const Source& source, Page& page) {
    const std::vector<ColumnHead> columns{
        {"Severity", 10}, {"Finding", 28}, {"What it says", 72}, {"Where", 36}, {"Code", 30}};
    page.widths(columns);
    write_heading(source, page, "Findings and assumptions", "gravest first");
    page.header(head_row, columns);
    page.freeze_above(first_row);
    page.repeat_row(head_row);
    int row = first_row;
    for (const Finding& finding : source.estimate.findings)
        write_finding(source, page, finding, row++);
    page.filter({head_row, 0}, {row == first_row ? head_row : row - 1, last_column});
    ++row;
    page.section(row++, last_column, "Assumptions: what the enquiry left open");
    page.header(row++, {{"No."}, {"Value taken"}, {"What it says"}, {"Field"}, {"Rule"}});
    int number = 1;
    for (const Assumption& assumption : source.estimate.request.assumptions)
        write_assumption(page, assumption, source.inch(), number++, row++);
    page.print(source.print(true));
}

} // namespace backplate
