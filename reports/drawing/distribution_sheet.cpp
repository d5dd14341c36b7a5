#include <algorithm>

#include "reports/drawing/sheets.h"
#include "reports/drawing/text_size.h"

namespace backplate {
namespace {

constexpr double size = 2.3, card_head = 10, load_row = 4.2;
constexpr double supply_card = 27, between = 5, feeder = 9;
constexpr std::size_t columns = 4; ///< cards of a row

std::string amps(Amperes value) { return number_text(value.value, 2) + " A"; }

/// "one_plus_one" -> one plus one.
std::string spaced(std::string word) {
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

/// ", outputs"; nothing where one supply feeds everything or its voltage tells the group.
std::string group_text(const SupplyResult& supply) {
    return supply.group == "all" || supply.group == "other_voltage" ? "" : ", " + supply.group;
}

double total(const DistributedGroup& group) {
    double sum = 0;
    for (const DistributedLoad& load : group.loads) sum += load.current.value;
    return sum;
}

/// Devices of the layout that are the units of this supply; units of one article may serve several.
std::vector<std::string> units_of(const BoxResult& box, std::size_t at) {
    const SupplyResult& supply = box.supplies[at];
    int earlier = 0;
    for (std::size_t i = 0; i < at; ++i)
        if (box.supplies[i].part == supply.part) earlier += box.supplies[i].quantity;
    std::vector<std::string> ids;
    for (const PlacedDevice& device : box.layout.devices) {
        if (device.kind != "supply" && device.kind != "transformer") continue;
        if (device.part != supply.part || earlier-- > 0) continue;
        if (ids.size() < static_cast<std::size_t>(supply.quantity)) ids.push_back(device.id);
    }
    return ids;
}

void add_supply(Scene& sheet, const BoxResult& box, std::size_t at, const Area& area) {
    const SupplyResult& supply = box.supplies[at];
    const Area card{area.x, area.y, 92, supply_card};
    sheet.box(Tone::supply, card, 0.25);
    const auto line = [&](double y, const std::string& text, bool bold = false) {
        sheet.text(Tone::ink, {card.x + 2, card.y + y, card.width - 4, 4.4}, text, size,
                   Align::left, bold);
    };
    line(1.2, id_list(units_of(box, at)) + "  " + supply.part, true);
    line(6,
         std::to_string(supply.quantity) + " × " + supply.part + ", rated " + amps(supply.rated));
    line(10.8, "load " + amps(supply.load) + ", everything on " + amps(supply.load_all_on));
    line(15.6, "asked " + (supply.required ? amps(*supply.required) : std::string("–")) + ", " +
                   spaced(supply.arrangement) + group_text(supply));
    std::string more;
    for (const PartCount& part : supply.parts)
        more += (more.empty() ? "with " : ", ") + std::to_string(part.quantity) + " × " + part.part;
    line(20.4, more);
}

double card_height(const DistributedGroup& group) {
    return card_head +
           load_row * static_cast<double>(std::max<std::size_t>(1, group.loads.size())) + 2;
}

void add_card(Scene& sheet, const DistributedGroup& group, const Area& area) {
    const bool channel = !group.id.empty();
    sheet.box(channel ? Tone::other : Tone::heading, {area.x, area.y, area.width, card_head}, 0.25);
    if (channel) sheet.shapes.back().device = group.id;
    sheet.box(Tone::faint, {area.x, area.y + card_head, area.width, area.height - card_head}, 0.2,
              false);
    const double inner = area.width - 4;
    sheet.text(Tone::ink, {area.x + 2, area.y + 0.8, inner, 4.4},
               channel ? group.id + "  " + group.part : "before the channels", size, Align::left,
               true);
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

/// A row of cards on the bar of their supply, which stands above its first row.
struct Strip {
    std::size_t supply = 0;
    bool begins = false;
    std::vector<const DistributedGroup*> groups;

    double cards() const {
        double high = 0;
        for (const DistributedGroup* group : groups) high = std::max(high, card_height(*group));
        return high;
    }
    double height() const { return (begins ? supply_card : 0) + feeder + cards() + between; }
};

std::vector<Strip> strips_of(const BoxResult& box) {
    std::vector<Strip> strips;
    for (std::size_t supply = 0; supply < box.supplies.size(); ++supply) {
        strips.push_back({supply, true, {}});
        for (const DistributedGroup& group : box.distribution) {
            if (group.supply != supply) continue;
            if (strips.back().groups.size() == columns) strips.push_back({supply, false, {}});
            strips.back().groups.push_back(&group);
        }
    }
    return strips;
}

void add_strip(Scene& sheet, const BoxResult& box, const Strip& strip, const Area& area) {
    const SupplyResult& supply = box.supplies[strip.supply];
    double y = area.y;
    if (strip.begins) {
        add_supply(sheet, box, strip.supply, area);
        y += supply_card;
        sheet.line(Tone::ink, area.x + 20, y, area.x + 20, y + feeder / 2, 0.5);
    }
    const double bar = y + feeder / 2;
    sheet.line(Tone::ink, area.x, bar, area.right(), bar, 0.5);
    sheet.text(Tone::ink, {area.right() - 40, bar - 4.2, 40, 4},
               number_text(supply.volts) + (supply.alternating ? " V AC" : " V DC"), size,
               Align::right, true);
    const double width = (area.width - (columns - 1) * between) / columns;
    const double top = y + feeder;
    double x = area.x;
    for (const DistributedGroup* group : strip.groups) {
        sheet.line(Tone::ink, x + width / 2, bar, x + width / 2, top, 0.3);
        add_card(sheet, *group, {x, top, width, std::min(strip.cards(), area.bottom() - top)});
        x += width + between;
    }
}

} // namespace

double distribution_height(const SheetSource& source) {
    double high = 0;
    for (const Strip& strip : strips_of(source.box())) high += strip.height();
    return high;
}

std::size_t add_distribution(Scene& sheet, const SheetSource& source, const Area& area,
                             std::size_t first) {
    const std::vector<Strip> strips = strips_of(source.box());
    double y = area.y;
    for (bool any = false; first < strips.size(); ++first, any = true) {
        const double high = strips[first].height();
        if (any && y + high > area.bottom()) break;
        add_strip(sheet, source.box(), strips[first], {area.x, y, area.width, area.bottom() - y});
        y += high;
    }
    return first;
}

void add_distribution_sheets(const SheetSource& source, std::vector<Scene>& sheets) {
    const std::size_t strips = strips_of(source.box()).size();
    for (std::size_t next = 0; next < strips;) {
        SheetPlan plan;
        Scene sheet = new_sheet(source, "24 V distribution", "", plan);
        next = add_distribution(sheet, source, plan.drawing, next);
        sheets.push_back(std::move(sheet));
    }
}

} // namespace backplate
