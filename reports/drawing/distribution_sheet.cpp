#include <algorithm>
#include <map>

#include "reports/drawing/sheets.h"
#include "reports/drawing/text_size.h"

namespace backplate {
namespace {

constexpr double size = 2.3, card_head = 10, load_row = 4.2;
constexpr double supply_card = 27, between = 5, feeder = 9;
constexpr std::size_t columns = 4;

std::string amps(Amperes value) { return number_text(value.value, 2) + " A"; }

/// "one_plus_one" -> one plus one.
std::string spaced(std::string word) {
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

/// ", outputs", ", 230 V AC"; nothing where one supply feeds everything.
std::string group_text(const SupplyResult& supply) {
    if (supply.group == "all") return {};
    if (supply.group != "other_voltage") return ", " + supply.group;
    return ", " + number_text(supply.volts) + (supply.alternating ? " V AC" : " V DC");
}

double total(const DistributedGroup& group) {
    double sum = 0;
    for (const DistributedLoad& load : group.loads) sum += load.current.value;
    return sum;
}

/// The supplies at the top, with what belongs to them; the height below.
double add_supplies(Scene& sheet, const SheetSource& source, const Area& area) {
    const BoxResult& box = source.box();
    double x = area.x;
    std::map<std::string, std::size_t> named; // units of one article may serve several groups
    for (const SupplyResult& supply : box.supplies) {
        const Area card{x, area.y, 92, supply_card};
        sheet.box(Tone::supply, card, 0.25);
        std::vector<std::string> ids;
        std::size_t met = 0;
        for (const PlacedDevice& device : box.layout.devices)
            if ((device.kind == "supply" || device.kind == "transformer") &&
                device.part == supply.part && met++ >= named[supply.part] &&
                ids.size() < static_cast<std::size_t>(supply.quantity))
                ids.push_back(device.id);
        named[supply.part] += ids.size();
        const auto line = [&](double y, const std::string& text, bool bold = false) {
            sheet.text(Tone::ink, {card.x + 2, card.y + y, card.width - 4, 4.4}, text, size,
                       Align::left, bold);
        };
        line(1.2, id_list(ids) + "  " + supply.part, true);
        line(6, std::to_string(supply.quantity) + " × " + supply.part + ", rated " +
                    amps(supply.rated));
        line(10.8, "load " + amps(supply.load) + ", everything on " + amps(supply.load_all_on));
        line(15.6, "asked " + (supply.required ? amps(*supply.required) : std::string("–")) + ", " +
                       spaced(supply.arrangement) + group_text(supply));
        std::string more;
        for (const PartCount& part : supply.parts)
            more +=
                (more.empty() ? "with " : ", ") + std::to_string(part.quantity) + " × " + part.part;
        line(20.4, more);
        x += card.width + 8;
    }
    if (box.supplies.empty()) {
        sheet.text(Tone::faint, {area.x, area.y, area.width, 8}, "no 24 V in this box", 3);
        return area.y + 10;
    }
    return area.y + supply_card;
}

double card_height(const DistributedGroup& group) {
    return card_head +
           load_row * static_cast<double>(std::max<std::size_t>(1, group.loads.size())) + 2;
}

void add_card(Scene& sheet, const BoxResult& box, const DistributedGroup& group, const Area& area) {
    const bool channel = !group.id.empty();
    const std::string fed =
        group.supply < box.supplies.size() ? group_text(box.supplies[group.supply]) : std::string();
    sheet.box(channel ? Tone::other : Tone::heading, {area.x, area.y, area.width, card_head}, 0.25);
    if (channel) sheet.shapes.back().device = group.id;
    sheet.box(Tone::faint, {area.x, area.y + card_head, area.width, area.height - card_head}, 0.2,
              false);
    const double inner = area.width - 4;
    sheet.text(Tone::ink, {area.x + 2, area.y + 0.8, inner, 4.4},
               (channel ? group.id + "  " + group.part : "before the channels") + fed, size,
               Align::left, true);
    sheet.text(Tone::ink, {area.x + 2, area.y + 5, inner, 4.4},
               (channel ? "rated " + amps(group.rated) + ", " : "") + "loads " +
                   amps({total(group)}),
               size);
    double y = area.y + card_head + 1;
    for (const DistributedLoad& load : group.loads) {
        sheet.text(Tone::ink, {area.x + 2, y, inner - 16, load_row},
                   load.text + (load.goes_on ? " (goes on)" : ""), size * 0.92);
        sheet.text(Tone::ink, {area.right() - 18, y, 16, load_row}, amps(load.current), size * 0.92,
                   Align::right);
        y += load_row;
    }
    if (group.loads.empty())
        sheet.text(Tone::faint, {area.x + 2, y, inner, load_row}, "free", size * 0.92);
}

/// Height of the row of cards that begins at `first`.
double row_height(const std::vector<DistributedGroup>& groups, std::size_t first) {
    double high = 0;
    for (std::size_t i = first; i < std::min(groups.size(), first + columns); ++i)
        high = std::max(high, card_height(groups[i]));
    return high;
}

void add_row(Scene& sheet, const BoxResult& box, std::size_t first, const Area& area) {
    const auto& groups = box.distribution;
    const double width = (area.width - (columns - 1) * between) / columns;
    for (std::size_t i = first; i < std::min(groups.size(), first + columns); ++i) {
        const double x = area.x + static_cast<double>(i - first) * (width + between);
        sheet.line(Tone::ink, x + width / 2, area.y - feeder / 2, x + width / 2, area.y, 0.3);
        add_card(sheet, box, groups[i], {x, area.y, width, area.height});
    }
}

} // namespace

double distribution_height(const SheetSource& source) {
    const BoxResult& box = source.box();
    if (box.supplies.empty() && box.distribution.empty()) return 0;
    double high = supply_card + feeder;
    for (std::size_t i = 0; i < box.distribution.size(); i += columns)
        high += row_height(box.distribution, i) + feeder;
    return high;
}

std::size_t add_distribution(Scene& sheet, const SheetSource& source, const Area& area,
                             std::size_t first) {
    const auto& groups = source.box().distribution;
    double y = add_supplies(sheet, source, area) + feeder;
    const double bar = y - feeder / 2;
    sheet.line(Tone::ink, area.x + 20, y - feeder, area.x + 20, bar, 0.5);
    sheet.line(Tone::ink, area.x, bar, area.right(), bar, 0.5);
    sheet.text(Tone::ink, {area.right() - 40, bar - 4.2, 40, 4}, "24 V DC", size, Align::right,
               true);
    for (bool any = false; first < groups.size(); first += columns, any = true) {
        const double high = row_height(groups, first);
        if (any && y + high > area.bottom()) break;
        if (any) sheet.line(Tone::ink, area.x, y - feeder / 2, area.right(), y - feeder / 2, 0.5);
        add_row(sheet, source.box(), first,
                {area.x, y, area.width, std::min(high, area.bottom() - y)});
        y += high + feeder;
    }
    return first;
}

void add_distribution_sheets(const SheetSource& source, std::vector<Scene>& sheets) {
    if (distribution_height(source) == 0) return;
    std::size_t next = 0;
    do {
        SheetPlan plan;
        Scene sheet = new_sheet(source, "24 V distribution", "", plan);
        next = add_distribution(sheet, source, plan.drawing, next);
        sheets.push_back(std::move(sheet));
    } while (next < source.box().distribution.size());
}

} // namespace backplate
