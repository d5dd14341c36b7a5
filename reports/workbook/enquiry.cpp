#include "reports/workbook/enquiry.h"

#include "reports/workbook/page.h"
#include "reports/workbook/workbook_file.h"

namespace backplate {
namespace {

enum Column {
    position,
    part,
    description,
    quantity,
    unit,
    pack,
    minimum,
    held,
    list_price,
    discount,
    lead_days,
    valid_until,
    last = valid_until
};

std::vector<ColumnHead> heads() {
    return {{"Line", 6, true},
            {"Part", 16},
            {"Description", 46},
            {"To buy", 9, true},
            {"Unit", 8},
            {"Pack", 7, true},
            {"Minimum", 9, true},
            {"Price held", 19},
            {"List price", 12, true},
            {"Discount %", 11, true},
            {"Lead days", 10, true},
            {"Valid until", 12, true}};
}

constexpr int first_row = 4;

void write_head(const Estimate& estimate, std::size_t lines, Page& page) {
    page.text({0, 0}, "Enquiry for prices", look::title());
    page.row_height(0, 24);
    page.text({1, 0},
              "of " + estimate.request.date.text() + ", amounts in " + estimate.request.currency +
                  (estimate.demo_data ? ", demo data" : ""),
              look::subtitle());
    page.paragraph(2, 0, last,
                   lines == 0 ? "Every line of the bill has a valid price: nothing is asked for."
                              : "Please fill in the tinted cells: list price of one unit, "
                                "discount, days to delivery, last day of the price. Quantities are "
                                "whole packs and at least the minimum order as far as they are "
                                "known; please say where they differ.",
                   look::wrapped());
}

void write_line(const EnquiryLine& line, int number, int row, Page& page) {
    page.number({row, position}, number, look::count());
    page.text({row, part}, line.part, look::wrapped());
    page.text({row, description}, line.description, look::wrapped());
    page.number({row, quantity}, static_cast<double>(line.to_buy), look::count());
    page.text({row, unit}, line.unit == "lump_sum" ? "lump sum" : line.unit, look::text());
    page.number({row, pack}, line.pack, look::count());
    page.number({row, minimum}, line.minimum_order, look::count());
    page.text({row, held}, line.reason, look::wrapped());
    page.blank({row, list_price}, look::changeable(look::unit_price(2)));
    page.blank({row, discount}, look::changeable(look::percent()));
    page.blank({row, lead_days}, look::changeable(look::count()));
    page.blank({row, valid_until}, look::changeable(look::date()));
}

/// Each maker on a page of its own, so that a supplier gets only what is his.
void write_lines(const std::vector<EnquiryLine>& lines, Page& page) {
    std::vector<std::uint32_t> breaks;
    int row = first_row;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (i == 0 || lines[i].maker != lines[i - 1].maker) {
            if (i > 0) breaks.push_back(static_cast<std::uint32_t>(++row));
            page.section(row++, last, lines[i].maker.empty() ? "Maker not named" : lines[i].maker);
        }
        write_line(lines[i], static_cast<int>(i) + 1, row++, page);
    }
    if (!breaks.empty()) page.break_pages_above(std::move(breaks));
}

} // namespace

void write_enquiry(const Estimate& estimate, const std::vector<EnquiryLine>& lines,
                   const std::string& path) {
    WorkbookFile file(path);
    const BidRequest& request = estimate.request;
    file.describe("Enquiry for prices", request.prepared_by, request.date);
    Page page(file, "Enquiry");
    const auto columns = heads();
    page.widths(columns);
    write_head(estimate, lines.size(), page);
    page.header(first_row - 1, columns);
    page.freeze_above(first_row);
    page.repeat_row(first_row - 1);
    write_lines(lines, page);
    PrintSetup setup;
    setup.letter = request.north_america;
    setup.landscape = true;
    setup.left = "Enquiry for prices";
    setup.right = (estimate.demo_data ? "demo data, " : "") + request.date.text();
    page.print(setup);
    file.save();
}

} // namespace backplate
