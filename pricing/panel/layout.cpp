#include "pricing/panel/layout.h"

#include <algorithm>

#include "pricing/panel/devices.h"

namespace backplate {
namespace {

constexpr std::array<const char*, 5> band_words{"mains", "supply", "platform", "other",
                                                "terminals"};

/// Fills the rows of the groups from the top down.
class RowFiller {
public:
    RowFiller(const PanelDesign& design, const RoomRules& rules, Layout& layout)
        : plan_(design.room), rules_(rules), layout_(layout) {
        double y = static_cast<double>(plan_.duct) / 10;
        for (int group = 0; group < plan_.groups; ++group) {
            const auto at = static_cast<std::size_t>(group);
            first_row_[at] = static_cast<int>(layout_.row_y_mm.size());
            for (int row = 0; row < plan_.rows[at]; ++row) {
                layout_.row_y_mm.push_back(y);
                y += static_cast<double>(plan_.row_height[at] + plan_.duct) / 10;
            }
            row_[at] = first_row_[at];
        }
    }

    void put(const std::string& part, const std::string& text, Band band, double width_mm,
             double height_mm) {
        const auto group = static_cast<std::size_t>(plan_.group[static_cast<std::size_t>(band)]);
        const double rail = static_cast<double>(plan_.rail) / 10;
        if (x_[group] + width_mm > rail + 1e-6) {
            ++row_[group];
            x_[group] = 0;
        }
        const auto row = static_cast<std::size_t>(row_[group]);
        const double left = static_cast<double>(plan_.duct) / 10 + rules_.side_each_mm.number();
        const double middle =
            layout_.row_y_mm.at(row) + static_cast<double>(plan_.row_height[group]) / 20;
        layout_.devices.push_back({part, text, band_words[static_cast<std::size_t>(band)],
                                   row_[group], left + x_[group], middle - height_mm / 2, width_mm,
                                   height_mm});
        x_[group] += width_mm;
    }

private:
    const RoomPlan& plan_;
    const RoomRules& rules_;
    Layout& layout_;
    std::array<int, 5> first_row_{}, row_{};
    std::array<double, 5> x_{};
};

void put_item(RowFiller& filler, const BillItem& item, Band band, const RoomRules& rules) {
    const double width = width_on_rail(item, rules);
    if (width <= 0) return;
    const double height =
        item.equipment ? item.equipment->height_mm : item.part->height_mm.value_or(0);
    for (std::int64_t i = 0; i < item.quantity; ++i)
        filler.put(item.part ? item.part->key : "",
                   item.equipment ? item.equipment->asked->text : "", band, width, height);
}

} // namespace

Layout lay_out(const PanelDesign& design, const RoomRules& rules) {
    Layout layout;
    layout.plate_width_mm = design.enclosure->plate_width_mm.value_or(0);
    layout.plate_height_mm = design.enclosure->plate_height_mm.value_or(0);
    layout.duct_mm = static_cast<double>(design.room.duct) / 10;
    layout.rail_mm = static_cast<double>(design.room.rail) / 10;
    RowFiller filler(design, rules, layout);
    for (const Band band : {Band::mains, Band::supply, Band::platform, Band::other})
        for (const BillItem& item : design.bill)
            if (item.role != "accessory" && band_on_rail(item) == band)
                put_item(filler, item, band, rules);
    for (const TerminalCount& count : design.terminal_counts)
        for (std::int64_t i = 0; i < count.pieces; ++i)
            filler.put(count.part->key, "", Band::terminals, count.part->width_mm.value_or(0),
                       count.part->height_mm.value_or(0));
    return layout;
}

} // namespace backplate
