#include <string>
#include <vector>

#include "reports/number_format.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr int head_row = 3, first_row = 4, last_column = 6;

std::string place_word(BasisInput::From from) {
    switch (from) {
    case BasisInput::From::figure: return "figure";
    case BasisInput::From::request: return "request";
    case BasisInput::From::rule: return "rule";
    case BasisInput::From::part: break;
    }
    return "part";
}

/// " (45.28 in)" behind a length in the engine's unit; nothing in a metric job.
std::string beside(const std::string& value, const std::string& unit, bool inch) {
    const std::string text = in_inch_units(value, unit, inch);
    return text.empty() ? "" : " (" + text + ")";
}

/// "a = 34 points, request /boxes/0/points/0/count", one input a line.
std::string inputs_text(const BasisEntry& entry, bool inch) {
    std::string text;
    for (std::size_t i = 0; i < entry.inputs.size(); ++i) {
        const BasisInput& input = entry.inputs[i];
        if (i > 0) text += '\n';
        text += input_letter(i) + " = " + input.value;
        if (!input.unit.empty()) text += " " + input.unit + beside(input.value, input.unit, inch);
        text += ", " + place_word(input.from) + " " + input.path;
    }
    return text;
}

void write_entry(Page& page, const BasisEntry& entry, bool inch, int row) {
    page.text({row, 0}, entry.figure, look::wrapped());
    page.text({row, 1}, entry.value, Style{}.wrapped().to(Style::Side::right));
    page.text({row, 2}, entry.unit + beside(entry.value, entry.unit, inch), look::wrapped());
    page.text({row, 3}, entry.formula, look::wrapped());
    page.text({row, 4}, inputs_text(entry, inch), look::wrapped());
    page.text({row, 5}, entry.rule, look::wrapped().coloured(look::quiet));
    page.text({row, 6}, entry.source, look::wrapped().coloured(look::quiet));
}

} // namespace

void write_basis(const Source& source, Page& page) {
    const std::vector<ColumnHead> columns{{"Figure", 30},  {"Value", 13, true}, {"Unit", 10},
                                          {"Formula", 30}, {"Inputs", 54},      {"Rule", 24},
                                          {"Source", 28}};
    page.widths(columns);
    write_heading(source, page, "Basis",
                  source.inch() ? "how each figure came about, in the units of the engine; values "
                                  "before rounding for print"
                                : "how each figure came about; values before rounding for print");
    page.header(head_row, columns);
    page.freeze_above(first_row);
    page.repeat_row(head_row);
    int row = first_row;
    for (const BasisEntry& entry : source.estimate.basis)
        write_entry(page, entry, source.inch(), row++);
    const int last = row == first_row ? head_row : row - 1;
    page.filter({head_row, 0}, {last, last_column});
    page.allow_number_text({first_row, 1}, {last < first_row ? first_row : last, 1});
    page.print(source.print(true));
}

} // namespace backplate
