#include <algorithm>

#include "reports/drawing/sheets.h"
#include "reports/drawing/text_size.h"

namespace backplate {
namespace {

constexpr int columns = 4;

/// Millimetres of a card on the sheet.
struct CardLook {
    double size = 2.1, head = 8.6, row_high = 3.7, between = 4;
    CardLook times(double grown) const {
        return {size * grown, head * grown, row_high * grown, between};
    }
};

/// Channels of one use that follow each other, or one with a tag of its own.
struct ChannelRow {
    int first = 0, last = 0;
    std::string use;
};

std::string use_of(const ChannelResult& channel) {
    if (channel.signal.empty()) return "idle";
    std::string text = channel.signal;
    if (channel.spare) return text + ", spare";
    if (!channel.tag.empty()) text += "  " + channel.tag;
    if (!channel.device.empty()) text += "  " + channel.device;
    return text;
}

std::vector<ChannelRow> rows_of(const PlaceResult& place) {
    std::vector<ChannelRow> rows;
    for (const ChannelResult& channel : place.channels) {
        const std::string use = use_of(channel);
        if (!rows.empty() && rows.back().use == use && channel.tag.empty())
            rows.back().last = channel.number;
        else
            rows.push_back({channel.number, channel.number, use});
    }
    return rows;
}

/// A module of the box with its channels.
struct Card {
    std::string id, part, station;
    std::vector<ChannelRow> rows;
    double height(const CardLook& look) const {
        return look.head +
               look.row_high * static_cast<double>(std::max<std::size_t>(rows.size(), 1)) + 1;
    }
};

std::vector<Card> cards_of(const BoxResult& box) {
    std::vector<Card> cards;
    for (std::size_t station = 0; station < box.stations.size(); ++station)
        for (std::size_t place = 0; place < box.stations[station].places.size(); ++place) {
            const PlaceResult& at = box.stations[station].places[place];
            Card card{"", at.part, box.stations[station].name + ", place " + std::to_string(place),
                      rows_of(at)};
            for (const PlacedDevice& device : box.layout.devices)
                if (device.station == static_cast<int>(station) &&
                    device.place == static_cast<int>(place))
                    card.id = device.id;
            cards.push_back(std::move(card));
        }
    return cards;
}

void add_card(Scene& sheet, const Card& card, const Area& area, const CardLook& look) {
    const double size = look.size, head = look.head, row_high = look.row_high;
    sheet.box(Tone::platform, {area.x, area.y, area.width, head}, 0.25);
    sheet.shapes.back().device = card.id;
    sheet.box(Tone::faint, {area.x, area.y + head, area.width, area.height - head}, 0.2, false);
    sheet.text(Tone::ink, {area.x + 1.5, area.y + 0.4, area.width - 3, head / 2 - 0.1},
               card.id + "  " + card.part, size * 1.1, Align::left, true);
    sheet.text(Tone::ink, {area.x + 1.5, area.y + head / 2 + 0.1, area.width - 3, head / 2 - 0.5},
               card.station, size);
    double y = area.y + head + 0.4;
    if (card.rows.empty())
        sheet.text(Tone::faint, {area.x + 1.5, y, area.width - 3, row_high}, "no channels", size);
    for (const ChannelRow& row : card.rows) {
        const std::string number = row.first == row.last
                                       ? std::to_string(row.first)
                                       : std::to_string(row.first) + "–" + std::to_string(row.last);
        sheet.text(Tone::faint, {area.x + 1.5, y, 4.5 * size, row_high}, number, size);
        sheet.text(Tone::ink, {area.x + 5 * size, y, area.width - 5 * size - 1.5, row_high},
                   row.use, size);
        y += row_high;
    }
}

/// Where the cards of a box stand on their sheets.
struct CardColumns {
    const std::vector<Card>& cards;
    CardLook look;

    /// Cards that stand below each other in a column of this height, from `next` on; at least one.
    std::size_t column_end(std::size_t next, double high) const {
        double filled = cards[next++].height(look);
        while (next < cards.size() && filled + look.between + cards[next].height(look) <= high)
            filled += look.between + cards[next++].height(look);
        return next;
    }
    std::size_t sheet_end(std::size_t next, double high) const {
        for (int column = 0; column < columns && next < cards.size(); ++column)
            next = column_end(next, high);
        return next;
    }
    /// The least height of the columns with which a sheet holds as much as with the highest, so
    /// that few cards stand side by side.
    double height(std::size_t next, double highest) const {
        const std::size_t end = sheet_end(next, highest);
        double high = 0;
        while (high < highest && sheet_end(next, high) < end) high += look.row_high;
        return std::min(high, highest);
    }
};

/// Large letters where one sheet holds all of them, else small ones.
CardLook look_for(const std::vector<Card>& cards, double highest) {
    for (const double grown : {1.4, 1.2}) {
        const CardLook look = CardLook{}.times(grown);
        if (CardColumns{cards, look}.sheet_end(0, highest / 2) == cards.size()) return look;
    }
    return {};
}

void add_cards(Scene& sheet, const CardColumns& all, std::size_t& next, const Area& area) {
    const double between = all.look.between;
    const double width = (area.width - (columns - 1) * between) / columns;
    const double high = all.height(next, area.height);
    for (int column = 0; column < columns && next < all.cards.size(); ++column) {
        const double x = area.x + column * (width + between);
        double y = area.y;
        for (const std::size_t end = all.column_end(next, high); next < end; ++next) {
            const double room = std::min(all.cards[next].height(all.look), area.bottom() - y);
            add_card(sheet, all.cards[next], {x, y, width, room}, all.look);
            y += room + between;
        }
    }
}

} // namespace

void add_channel_sheets(const SheetSource& source, std::vector<Scene>& sheets) {
    const auto cards = cards_of(source.box());
    for (std::size_t next = 0; next < cards.size();) {
        SheetPlan plan;
        Scene sheet = new_sheet(source, "modules and channels", "", plan);
        add_cards(sheet, {cards, look_for(cards, plan.drawing.height)}, next, plan.drawing);
        sheets.push_back(std::move(sheet));
    }
}

} // namespace backplate
