#include <string>
#include <vector>

#include "pricing/values/decimal.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

enum Column {
    line,
    box,
    part,
    description,
    quantity,
    unit,
    list,
    unit_net,
    line_net,
    boxes,
    line_all,
    price_date,
    lead_days,
    note
};

constexpr int policy_row = 2, head_row = 4, first_row = 5;

std::vector<ColumnHead> heads() {
    return {{"Line", 6, true},
            {"Box", 9},
            {"Part", 14},
            {"Description", 42},
            {"Quantity", 9, true},
            {"Unit", 10},
            {"List", 10, true},
            {"Unit net", 10, true},
            {"Line net", 11, true},
            {"Boxes", 7, true},
            {"All boxes", 13, true},
            {"Price date", 11, true},
            {"Lead days", 8, true},
            {"Note", 28}};
}

class Bill {
public:
    Bill(const Source& source, Page& page) : source_(source), page_(page) {}

    void write() {
        const auto& lines = source_.estimate.bill;
        for (std::size_t i = 0; i < lines.size(); ++i) write_line(i);
        const int last = first_row + static_cast<int>(lines.size()) - 1;
        write_total(last + 1);
        page_.filter({head_row, line}, {last < first_row ? head_row : last, note});
    }

private:
    std::string rounded(const std::string& expression) const {
        return "ROUND(" + expression + "," + steps_text(source_.digits(), 0) + ")";
    }
    void write_line(std::size_t index);
    void write_amounts(std::size_t index, int row);
    void write_total(int row);
    template <class Wanted>
    void write_part(int row, const char* title, const char* name, const Wanted& wanted);
    std::string lines_above(std::size_t index) const;
    std::string sundries(const BillLine& bill) const;

    const Source& source_;
    Page& page_;
};

void Bill::write_line(std::size_t index) {
    const BillLine& bill = source_.estimate.bill[index];
    const int row = first_row + static_cast<int>(index);
    page_.number({row, line}, bill.line, look::count());
    page_.text({row, box}, bill.box, look::wrapped());
    page_.text({row, part}, bill.part, look::wrapped());
    page_.text({row, description}, bill.description, look::wrapped());
    page_.number({row, quantity}, static_cast<double>(bill.quantity),
                 look::changeable(look::count()));
    page_.text({row, unit}, bill.unit == "lump_sum" ? "lump sum" : bill.unit, look::text());
    if (bill.list)
        page_.number({row, list}, bill.list->number(), look::unit_price(source_.digits()));
    if (bill.price_date) page_.date({row, price_date}, *bill.price_date, look::date());
    if (bill.lead_days) page_.number({row, lead_days}, *bill.lead_days, look::count());
    page_.text({row, note}, bill.note, look::wrapped());
    write_amounts(index, row);
}

void Bill::write_amounts(std::size_t index, int row) {
    const BillLine& bill = source_.estimate.bill[index];
    page_.number({row, boxes}, source_.boxes_of(bill.box), look::count());
    if (!bill.unit_net || !bill.line_net || !bill.line_all) {
        page_.text({row, unit_net}, "no price", look::text().bolded().coloured(look::alarm));
        return;
    }
    const Style unit_style = look::unit_price(source_.digits());
    if (bill.role == "sundries")
        page_.formula({row, unit_net},
                      rounded("SUM(" + lines_above(index) + ")*" + sundries(bill) + "/100"),
                      bill.unit_net->number(), unit_style);
    else
        page_.number({row, unit_net}, bill.unit_net->number(), look::changeable(unit_style));
    const Style money = look::money(source_.digits());
    page_.formula({row, line_net},
                  rounded(Cell{row, quantity}.text() + "*" + Cell{row, unit_net}.text()),
                  bill.line_net->number(), money);
    page_.formula({row, line_all},
                  rounded(Cell{row, line_net}.text() + "*" + Cell{row, boxes}.text()),
                  bill.line_all->number(), money);
}

/// Percent of a box's sundries: less what its small parts take the place of.
std::string Bill::sundries(const BillLine& bill) const {
    const Percent all = Percent::of(source_.rules.policy.sundries_percent.value);
    const Percent less = Percent::of_steps(all.steps() - bill.share.value_or(all).steps());
    if (less == Percent()) return "sundries_percent";
    return "(sundries_percent-" + less.text() + ")";
}

/// The line amounts above that belong to the same box, as the ranges of a SUM.
std::string Bill::lines_above(std::size_t index) const {
    const auto& lines = source_.estimate.bill;
    std::string ranges;
    for (std::size_t i = 0; i < index; ++i) {
        if (lines[i].box != lines[index].box) continue;
        std::size_t end = i;
        while (end + 1 < index && lines[end + 1].box == lines[index].box) ++end;
        const int first = first_row + static_cast<int>(i), last = first_row + static_cast<int>(end);
        ranges += (ranges.empty() ? "" : ",") + range_text({first, line_net}, {last, line_net});
        i = end;
    }
    return ranges.empty() ? "0" : ranges;
}

/// Sum of the lines that `wanted` picks, where there are any: freight and the cost classes of the
/// price chain are counted without them or from them.
template <class Wanted>
void Bill::write_part(int row, const char* title, const char* name, const Wanted& wanted) {
    const auto& lines = source_.estimate.bill;
    Money sum;
    std::string cells;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!wanted(lines[i]) || !lines[i].line_all) continue;
        sum += *lines[i].line_all;
        cells +=
            (cells.empty() ? "" : "+") + Cell{first_row + static_cast<int>(i), line_all}.text();
    }
    if (cells.empty()) return;
    page_.text({row, description}, title, look::label());
    page_.formula({row, line_all}, rounded(cells), sum.number(), look::money(source_.digits()));
    page_.name_cell({row, line_all}, name);
}

void Bill::write_total(int row) {
    Money sum;
    for (const BillLine& bill : source_.estimate.bill) sum += bill.line_all.value_or(Money());
    if (source_.estimate.price) sum = source_.estimate.price->material;
    for (int column = line; column <= note; ++column)
        page_.blank({row, column}, look::total(look::text()));
    page_.text({row, description}, "Material, all boxes", look::total(look::text()));
    // The heading stands in the sum as text, so that an empty bill has a total too.
    page_.formula({row, line_all},
                  rounded("SUM(" + range_text({head_row, line_all}, {row - 1, line_all}) + ")"),
                  sum.number(), look::total(look::money(source_.digits())));
    page_.name_cell({row, line_all}, "material");
    page_.text({row, price_date}, source_.price_mark(),
               look::total(look::text()).coloured(look::caution));
    write_part(row + 1, "of it charges by rule, without freight", "charges",
               [](const BillLine& bill) { return !bill.charge.empty(); });
    write_part(row + 2, "of it bought work", "subcontract",
               [](const BillLine& bill) { return bill.role == "subcontract"; });
}

} // namespace

void write_bill(const Source& source, Page& page) {
    const auto columns = heads();
    page.widths(columns);
    const std::string mark = source.price_mark();
    write_heading(source, page, "Bill of material",
                  "amounts in " + source.currency() + (mark.empty() ? "" : ", " + mark));
    page.text({policy_row, line}, "Sundries, percent of the lines above of the same box",
              look::label());
    page.number({policy_row, quantity}, source.rules.policy.sundries_percent.number(),
                look::changeable(look::percent()));
    page.name_cell({policy_row, quantity}, "sundries_percent");
    page.header(head_row, columns);
    page.freeze_above(first_row);
    page.repeat_row(head_row);
    Bill(source, page).write();
    page.print(source.print(true));
}

} // namespace backplate
