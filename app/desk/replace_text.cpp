#include "app/desk/replace_text.h"

#include "app/desk/price_text.h"
#include "pricing/book/part_fields.h"
#include "reports/wording.h"

namespace backplate {

TextRows replacement_rows(const std::vector<Replacement>& found, const PriceBook& book, int digits,
                          const FigureText& text) {
    TextRows rows;
    for (const Replacement& each : found) {
        const Part* part = book.find(each.part);
        std::vector<std::string> row{each.part, part ? part->description : std::string()};
        if (each.buildable)
            for (std::string& cell : difference_cells(each.difference, digits, text))
                row.push_back(std::move(cell));
        else
            row.push_back("✗ " + each.limits);
        rows.push_back(std::move(row));
    }
    return rows;
}

TextRows fact_rows(const Part& part, const Part* other) {
    TextRows rows;
    for (const PartField& field : part_fields()) {
        const std::string now = field.write(part);
        const std::string instead = other ? field.write(*other) : std::string();
        if (now.empty() && instead.empty()) continue;
        std::string name = plain_words(std::string(field.key));
        if (!field.unit.empty()) name += " (" + std::string(field.unit) + ")";
        rows.push_back({name, now, instead});
    }
    return rows;
}

} // namespace backplate
