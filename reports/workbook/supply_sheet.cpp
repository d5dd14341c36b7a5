#include <string>
#include <utility>
#include <vector>

#include "pricing/values/decimal.h"
#include "reports/number_format.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr int last_column = 3;
constexpr const char* no_box = "size and walls of the box are not known";

/// Writes figures one below the other: name, value, unit, remark.
class Figures {
public:
    Figures(const Source& source, Page& page, int row) : source_(source), page_(page), row_(row) {}

    int row() const { return row_; }
    void skip() { ++row_; }
    void section(const std::string& title) { page_.section(row_++, last_column, title); }
    void heading(const std::string& title) {
        page_.text({row_, 0}, title, look::text().bolded());
        page_.row_height(row_++, 20);
    }
    void number(const char* name, double value, const Style& style, const std::string& unit,
                const std::string& remark = {}) {
        page_.number({row_, 1}, value, style);
        rest(name, unit, remark);
    }
    void text(const char* name, const std::string& value, const std::string& remark = {}) {
        page_.text({row_, 1}, value, Style{}.wrapped().to(Style::Side::right));
        rest(name, "", remark);
    }
    void temperature(const char* name, Celsius value, const std::string& remark = {}) {
        number(name, temperature_in(value.value, source_.inch()), look::one_decimal(),
               temperature_unit(source_.inch()), remark);
    }
    void unknown(const char* name, const std::string& remark) { text(name, "not known", remark); }
    void length(const char* name, double millimetres) {
        number(name, length_in(millimetres, source_.inch()),
               source_.inch() ? look::money(2) : look::one_decimal(), length_unit(source_.inch()));
    }
    void amperes(const char* name, Amperes value, const std::string& remark = {}) {
        number(name, value.value, look::money(2), "A", remark);
    }

private:
    void rest(const char* name, const std::string& unit, const std::string& remark) {
        page_.text({row_, 0}, name, look::wrapped());
        page_.text({row_, 2}, unit, look::text());
        page_.text({row_, 3}, remark, look::wrapped().coloured(look::quiet));
        ++row_;
    }

    const Source& source_;
    Page& page_;
    int row_;
};

void write_supply_group(const SupplyResult& supply, Figures& figures) {
    figures.heading(supply_title(supply) + ", loads " + inside_sentence(supply.group));
    figures.text("Part", supply.part, inside_sentence(supply.arrangement));
    figures.number("Pieces", supply.quantity, look::count(), "");
    figures.amperes("Load", supply.load, "as on together, with the load to come");
    figures.amperes("Load, everything on", supply.load_all_on);
    if (supply.required)
        figures.amperes("Required rating", *supply.required, "load ÷ (utilisation × derating)");
    else
        figures.unknown("Required rating", no_box);
    if (supply.selection_va)
        figures.number("Selection", *supply.selection_va, look::one_decimal(), "VA",
                       "sealed and inrush VA, root of the squares");
    if (supply.primary) figures.amperes("Fuse, primary", *supply.primary);
    if (supply.secondary) figures.amperes("Fuse, secondary", *supply.secondary);
    figures.amperes("Rated", supply.rated);
    if (supply.air) figures.temperature("Air at the supply", *supply.air);
    const Style factor = look::hours();
    figures.number("Utilisation", supply.derating.utilisation, factor, "");
    if (supply.derating.temperature)
        figures.number("Derating, temperature", *supply.derating.temperature, factor, "");
    figures.number("Derating, altitude", supply.derating.altitude, factor, "");
    figures.number("Derating, input", supply.derating.input, factor, "");
    figures.number("Derating, mounting", supply.derating.mounting, factor, "");
    for (const PartCount& part : supply.parts)
        figures.number("Pieces", part.quantity, look::count(), "", part.part);
}

void write_heat(const HeatResult& heat, Figures& figures) {
    figures.heading("Heat");
    figures.number("Heat inside", heat.inside.value, look::one_decimal(), "W", "everything on");
    if (heat.mid) figures.temperature("Inside, half height", *heat.mid);
    if (heat.top) figures.temperature("Inside, top", *heat.top);
    if (heat.second_method_top)
        figures.temperature("Inside, top, second method", *heat.second_method_top);
    figures.temperature("Limit", heat.limit, "lowest limit of a part, less the reserve");
    if (heat.stage.empty())
        figures.unknown("Stage", no_box);
    else
        figures.text("Stage", inside_sentence(heat.stage));
    for (const PartCount& part : heat.parts)
        figures.number("Pieces", part.quantity, look::count(), "", part.part);
}

void write_enclosure(const EnclosureResult& enclosure, Figures& figures) {
    figures.heading("Enclosure");
    figures.text("Part", enclosure.part.empty() ? "by the client" : enclosure.part);
    figures.number("Pieces", enclosure.quantity, look::count(), "");
    if (enclosure.width_mm) figures.length("Width", *enclosure.width_mm);
    if (enclosure.height_mm) figures.length("Height", *enclosure.height_mm);
    if (enclosure.depth_mm) figures.length("Depth", *enclosure.depth_mm);
    figures.length("Plate, width", enclosure.plate_width_mm);
    figures.length("Plate, height", enclosure.plate_height_mm);
    if (!enclosure.protection.empty()) figures.text("Protection", enclosure.protection);
    if (!enclosure.material.empty()) figures.text("Material", inside_sentence(enclosure.material));
    figures.number("Room left", enclosure.room_left_percent, look::one_decimal(), "%",
                   "of the occupied rail");
}

void write_mains(const Source& source, const BoxResult& box, Figures& figures) {
    figures.heading("Mains, terminals, wires");
    if (box.incoming) {
        figures.amperes("Incoming load", box.incoming->load);
        figures.amperes("Incoming device", box.incoming->device, box.incoming->part);
        figures.text("Incoming conductor", conductor_text(box.incoming->conductor, source.inch()));
    }
    if (box.short_circuit && box.short_circuit->stated_ka)
        figures.number(
            "Offered for fault current", *box.short_circuit->stated_ka, look::one_decimal(), "kA",
            inside_sentence(box.short_circuit->basis) + ": " + box.short_circuit->weakest_part);
    else if (box.short_circuit)
        figures.text("Offered for fault current", inside_sentence(box.short_circuit->basis) + ": " +
                                                      box.short_circuit->weakest_part);
    if (box.terminals) figures.number("Terminals", *box.terminals, look::count(), "");
    if (box.wires) figures.number("Wires", *box.wires, look::count(), "");
}

void write_box(const Source& source, const BoxResult& box, Figures& figures) {
    figures.section("Box " + box.name +
                    (box.quantity == 1 ? "" : ", built " + steps_text(box.quantity, 0) + " times"));
    for (const SupplyResult& supply : box.supplies) write_supply_group(supply, figures);
    write_heat(box.heat, figures);
    for (const EnclosureResult& enclosure : box.enclosures) write_enclosure(enclosure, figures);
    write_mains(source, box, figures);
    figures.skip();
}

} // namespace

void write_supply(const Source& source, Page& page) {
    page.widths({34, 24, 8, 46});
    write_heading(source, page, "Supply and heat", "figures of one box");
    page.freeze_above(3);
    Figures figures(source, page, 3);
    std::vector<std::uint32_t> breaks;
    for (const BoxResult& box : source.estimate.boxes) {
        if (&box != &source.estimate.boxes.front())
            breaks.push_back(static_cast<std::uint32_t>(figures.row()));
        write_box(source, box, figures);
    }
    page.break_pages_above(std::move(breaks));
    page.print(source.print(false));
}

} // namespace backplate
