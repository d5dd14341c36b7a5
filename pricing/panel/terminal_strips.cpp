#include <algorithm>

#include "pricing/panel/layout.h"

namespace backplate {
namespace {

/// What strips take beside their terminals.
struct StripWidths {
    double ends_mm = 0, gap_mm = 0; ///< gap: after the strip at mains voltage
};

/// Fills the rows of terminals from the left; every strip has ends on both sides.
class StripFiller {
public:
    StripFiller(Layout& layout, std::size_t first_row, const RoomRules& rules, StripWidths widths)
        : layout_(layout), row_(first_row), ends_(widths.ends_mm), gap_(widths.gap_mm),
          most_(rules.terminals_per_strip ? static_cast<int>(rules.terminals_per_strip->number())
                                          : 0) {}

    /// `spare_strips`: strips that may begin within a row beside the one that every row has.
    void put(const std::vector<TerminalCount>& counts, bool mains, std::int64_t spare_strips) {
        spare_ = spare_strips;
        open_ = false;
        mains_ = mains;
        for (const TerminalCount& count : counts)
            for (std::int64_t i = 0; i < count.pieces && !too_many_; ++i) put(*count.part);
        if (mains && x_ > 0) x_ += gap_;
    }
    bool too_many() const { return too_many_; } ///< more rows are asked than there are

private:
    void begin(bool further) {
        if (further) ++row_, x_ = 0;
        too_many_ = row_ >= layout_.rows.size();
        const auto number = static_cast<std::int64_t>(layout_.strips.size() + 1);
        layout_.strips.push_back({"X" + steps_text(number, 0), mains_, static_cast<int>(row_), 0,
                                  layout_.rail_x_mm + x_, 0});
        x_ += ends_;
        open_ = true;
    }

    /// Is a further strip begun on this rail: the last one is full, and enough room is left.
    bool wants_strip(double width) const {
        return most_ > 0 && layout_.strips.back().pieces >= most_ && spare_ > 0 &&
               x_ + ends_ + most_ / 4 * width <= layout_.rail_mm;
    }

    void put(const Part& part) {
        const double width = part.width_mm.value_or(0);
        const double rail = layout_.rail_mm + 1e-6;
        if (!open_) {
            begin(x_ > 0 && x_ + ends_ + width > rail);
        } else if (x_ + width > rail) {
            begin(true);
        } else if (wants_strip(width)) {
            --spare_;
            begin(false);
        }
        if (!too_many_) place(part, width);
    }

    void place(const Part& part, double width) {
        TerminalStrip& strip = layout_.strips.back();
        LayoutRow& row = layout_.rows.at(row_);
        PlacedDevice device;
        device.id = strip.id + ":" + steps_text(++strip.pieces, 0);
        device.part = part.key;
        device.kind = "terminal";
        device.band = "terminals";
        device.row = static_cast<int>(row_);
        device.enclosure = row.enclosure;
        device.width_mm = width;
        device.height_mm = part.height_mm.value_or(0);
        device.depth_mm = part.depth_mm.value_or(0);
        device.x_mm = layout_.rail_x_mm + x_ - ends_ / 2;
        device.y_mm = row.y_mm + (row.height_mm - device.height_mm) / 2;
        layout_.devices.push_back(std::move(device));
        x_ += width;
        strip.width_mm = layout_.rail_x_mm + x_ - strip.x_mm;
        row.used_mm = x_;
    }

    Layout& layout_;
    std::size_t row_;
    double ends_, gap_;
    int most_;
    std::int64_t spare_ = 0;
    double x_ = 0;
    bool open_ = false, mains_ = false, too_many_ = false;
};

/// False, and nothing placed, where so many spare strips need more rows than there are.
bool try_place(Layout& layout, const StripTerminals& terminals, std::size_t first_row,
               const RoomRules& rules, StripWidths widths, std::int64_t spare_strips) {
    Layout filled = layout;
    StripFiller filler(filled, first_row, rules, widths);
    filler.put(terminals.mains, true, 0);
    filler.put(terminals.signals, false, spare_strips);
    if (filler.too_many()) return false;
    layout = std::move(filled);
    return true;
}

std::int64_t pieces_of(const std::vector<TerminalCount>& counts) {
    std::int64_t pieces = 0;
    for (const TerminalCount& count : counts) pieces += count.pieces;
    return pieces;
}

} // namespace

bool place_terminals(Layout& layout, const StripTerminals& terminals, std::size_t first_row,
                     const RoomRules& rules) {
    const std::int64_t pieces = pieces_of(terminals.signals);
    const std::int64_t each = rules.terminals_per_strip
                                  ? static_cast<std::int64_t>(rules.terminals_per_strip->number())
                                  : pieces + 1;
    const double ends = rules.strip_ends_mm ? rules.strip_ends_mm->number() : 0;
    const double gap = rules.sharings.empty() ? 0 : rules.sharings.front().gap_mm;
    // A full rail may leave no room for the gap, or for ends at every break of a row.
    for (const StripWidths widths : {StripWidths{ends, gap}, StripWidths{ends, 0}, StripWidths{}})
        for (std::int64_t spare = pieces / each + 1; spare >= 0; --spare)
            if (try_place(layout, terminals, first_row, rules, widths, spare)) return true;
    return false;
}

} // namespace backplate
