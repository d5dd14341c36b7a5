#include <algorithm>

#include "reports/drawing/sheets.h"
#include "reports/drawing/text_size.h"

namespace backplate {
namespace {

constexpr double size = 2.1, head = 8.6, row_high = 3.7, between = 4;
constexpr int columns = 4;

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
    double height() const {
        return head + row_high * static_cast<double>(std::max<std::size_t>(rows.size(), 1)) + 1;
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

void add_card(Scene& sheet, const Card& card, const Area& area) {
    sheet.box(Tone::platform, {area.x, area.y, area.width, head}, 0.25);
    sheet.shapes.back().device = card.id;
    sheet.box(Tone::faint, {area.x, area.y + head, area.width, area.height - head}, 0.2, false);
    sheet.text(Tone::ink, {area.x + 1.5, area.y + 0.4, area.width - 3, 4.2},
               card.id + "  " + card.part, size * 1.1, Align::left, true);
    sheet.text(Tone::ink, {area.x + 1.5, area.y + 4.4, area.width - 3, 3.8}, card.station, size);
    double y = area.y + head + 0.4;
    if (card.rows.empty())
        sheet.text(Tone::faint, {area.x + 1.5, y, area.width - 3, row_high}, "no channels", size);
    for (const ChannelRow& row : card.rows) {
        const std::string number = row.first == row.last
                                       ? std::to_string(row.first)
                                       : std::to_string(row.first) + "–" + std::to_string(row.last);
        sheet.text(Tone::faint, {area.x + 1.5, y, 9, row_high}, number, size);
        sheet.text(Tone::ink, {area.x + 11, y, area.width - 12.5, row_high}, row.use, size);
        y += row_high;
    }
}

} // namespace

void add_channel_sheets(const SheetSource& source, std::vector<Scene>& sheets) {
    const auto cards = cards_of(source.box());
    if (cards.empty()) return;
    for (std::size_t next = 0; next < cards.size();) {
        SheetPlan plan;
        Scene sheet = new_sheet(source, "modules and channels", "", plan);
        const double width = (plan.drawing.width - (columns - 1) * between) / columns;
        for (int column = 0; column < columns && next < cards.size(); ++column) {
            const double x = plan.drawing.x + column * (width + between);
            double y = plan.drawing.y;
            while (next < cards.size() &&
                   (y == plan.drawing.y || y + cards[next].height() <= plan.drawing.bottom())) {
                const double high = std::min(cards[next].height(), plan.drawing.bottom() - y);
                add_card(sheet, cards[next], {x, y, width, high});
                y += high + between;
                ++next;
            }
        }
        sheets.push_back(std::move(sheet));
    }
}

} // namespace backplate
