#include "catalog/exchange/part_template.h"

#include <array>
#include <string_view>
#include <vector>

#include "catalog/cells/table.h"
#include "pricing/book/part_fields.h"

namespace backplate {
namespace {

using Row = std::vector<std::string>;

constexpr auto columns = std::array<std::string_view, 28>{"part",
                                                          "kind",
                                                          "description",
                                                          "maker",
                                                          "platform",
                                                          "list",
                                                          "discount_percent",
                                                          "price_date",
                                                          "valid_until",
                                                          "lead_days",
                                                          "width_mm",
                                                          "height_mm",
                                                          "depth_mm",
                                                          "own_a",
                                                          "own_w",
                                                          "signal",
                                                          "channels",
                                                          "channel_a",
                                                          "groups",
                                                          "places",
                                                          "bus_ma",
                                                          "stations_max",
                                                          "accessory",
                                                          "min_c",
                                                          "max_c",
                                                          "approvals",
                                                          "state",
                                                          "allowance"};

/// What a row of the template says already; the rest is the data sheet's.
struct Start {
    std::string_view key, kind, description, signal, channels, groups, places, accessory;
};

constexpr auto starts = std::array{
    Start{"CTL", "controller", "Controller", "", "", "", "", "OWN-END"},
    Start{"HEAD", "head", "Coupler for a further station", "", "", "", "", "OWN-END"},
    Start{"DI16", "module", "16 inputs 24 V DC", "DI", "16", "", "1", "OWN-CON20"},
    Start{"DI8AC", "module", "8 inputs 230 V AC", "DI_AC", "8", "", "1", "OWN-CON20"},
    Start{"DO16", "module", "16 outputs 24 V DC, transistor", "", "", "DO*16@0.5/8", "1",
          "OWN-CON20"},
    Start{"DO8R", "module", "8 relay outputs", "", "", "DO_RELAY*8@2/8", "1", "OWN-CON20"},
    Start{"AI4", "module", "4 inputs 4-20 mA or 0-10 V", "", "", "AI_MA|AI_V*4", "1", "OWN-CON20"},
    Start{"AO4", "module", "4 outputs 4-20 mA or 0-10 V", "", "", "AO_MA|AO_V*4", "1", "OWN-CON20"},
    Start{"RTD4", "module", "4 inputs, resistance thermometer", "RTD", "4", "", "1", "OWN-CON20"},
    Start{"TC4", "module", "4 inputs, thermocouple", "TC", "4", "", "1", "OWN-CON20"},
    Start{"CNT2", "module", "2 counters", "CNT", "2", "", "1", "OWN-CON20"},
    Start{"SER1", "module", "1 serial port", "SERIAL", "1", "", "1", "OWN-CON20"},
    Start{"CON20", "accessory", "Front connector", "", "", "", "", ""},
    Start{"END", "accessory", "End cover", "", "", "", "", ""}};

std::string cell_of(const Start& start, std::string_view column, const std::string& platform) {
    if (column == "part") return "OWN-" + std::string(start.key);
    if (column == "kind") return std::string(start.kind);
    if (column == "description") return std::string(start.description);
    if (column == "platform") return start.kind == "accessory" ? "" : platform;
    if (column == "signal") return std::string(start.signal);
    if (column == "channels") return std::string(start.channels);
    if (column == "groups") return std::string(start.groups);
    if (column == "places") return std::string(start.places);
    if (column == "accessory") return std::string(start.accessory);
    return "";
}

/// The kinds of the template that cannot do without the field.
std::string needed_text(const PartField& field) {
    std::string text;
    for (const std::string_view kind : {"controller", "head", "module", "accessory"})
        if (needed_by(field, kind)) text += (text.empty() ? "" : " ") + std::string(kind);
    return text.empty() || !field.offered_only ? text : text + " (an allowance does without)";
}

/// A remark over every column; `first` says what the line is about.
template <class Say> Row remark(const char* first, Say say) {
    Row row{"# " + std::string(first) + ": " + say(*find_part_field("part"))};
    for (std::size_t i = 1; i < columns.size(); ++i)
        row.push_back(say(*find_part_field(columns[i])));
    return row;
}

} // namespace

std::string part_template(const std::string& platform) {
    std::vector<Row> rows;
    rows.push_back({"# Fill in what the data sheets say, put your own keys in place of OWN-..., "
                    "delete the rows you do not need. Lines that begin with # are not read. "
                    "Figures take a decimal point, never a comma. What you do not know stays empty "
                    "(backplate parts check says what that means) or is an allowance."});
    rows.push_back(remark("meaning", [](const auto& f) { return std::string(f.explanation); }));
    rows.push_back(remark("unit", [](const auto& f) { return std::string(f.unit); }));
    rows.push_back(remark("expected", [](const auto& f) { return expectation(f); }));
    rows.push_back(remark("needed for", [](const auto& f) { return needed_text(f); }));
    rows.emplace_back(columns.begin(), columns.end());
    for (const Start& start : starts) {
        Row& row = rows.emplace_back();
        for (const auto column : columns) row.push_back(cell_of(start, column, platform));
    }
    return write_csv(rows);
}

} // namespace backplate
