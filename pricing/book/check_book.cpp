#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "pricing/book/part_fields.h"
#include "pricing/book/price_book.h"

namespace backplate {
namespace {

/// At least one of the fields is needed for the kinds.
struct Alternative {
    std::string_view kinds[6];
    std::string_view fields[2];
    std::string_view text;
};

constexpr Alternative alternatives[] = {
    {{"module"}, {"channels", "groups"}, "has no channels: it serves no point"},
    {{"enclosure"},
     {"protection", "type_mark"},
     "has neither an IP mark nor a type mark: it meets no protection that is asked"},
    {{"network", "door", "cooling", "heater", "redundancy", "backup"},
     {"own_a", "own_w"},
     "has neither an own current nor an own power: its heat is unknown"},
};

/// What every panel takes at least one of.
constexpr std::string_view panel_kinds[] = {"supply", "incoming", "protection", "terminal",
                                            "rail",   "duct",     "wire",       "enclosure"};

/// What an estimate lacks without a field.
struct Lack {
    std::string_view field, name, text;
};

constexpr auto lacks = std::array{
    Lack{"part", "key", "nobody can name it"},
    Lack{"kind", "kind", "nobody can tell what it is for"},
    Lack{"description", "description", "its line on the bill says nothing"},
    Lack{"list", "list price", "an allowance without a price is no figure"},
    Lack{"width_mm", "width", "no room can be found for it"},
    Lack{"height_mm", "height", "it cannot be drawn in its row"},
    Lack{"depth_mm", "depth", "nobody can tell whether the door closes over it"},
    Lack{"own_a", "own current", "its share of the 24 V load and of the heat is unknown"},
    Lack{"places", "places", "nobody can tell how many modules fit side by side"},
    Lack{"bus_ma", "bus current", "nobody can tell how many modules it feeds"},
    Lack{"rated_a", "rated current", "it can be chosen for no load"},
    Lack{"efficiency_row", "group of loss rows", "its own heat is unknown"},
    Lack{"max_c", "highest air temperature", "nobody can tell whether it stands the heat inside"},
    Lack{"rated_va", "rated power", "it can be chosen for no load"},
    Lack{"capacity_wh", "usable energy", "nobody can tell how long it lasts"},
    Lack{"material", "material of the walls", "the heat that its walls let out is unknown"},
    Lack{"plate_width_mm", "width of the plate", "nothing can be placed in it"},
    Lack{"plate_height_mm", "height of the plate", "nothing can be placed in it"},
};

bool has(const Part& part, std::string_view field) {
    return !field.empty() && !field_text(part, field).empty();
}

std::string lack_text(std::string_view field) {
    for (const Lack& lack : lacks)
        if (lack.field == field)
            return "has no " + std::string(lack.name) + ": " + std::string(lack.text);
    return "has no " + std::string(field) + ": it cannot be used";
}

void check_fields(const Part& part, std::vector<BookFault>& faults) {
    for (const auto& field : part_fields())
        if (needed_by(field, part) && !has(part, field.key))
            faults.push_back({part.key, std::string(field.key), lack_text(field.key)});
    for (const auto& choice : alternatives) {
        const bool meant = std::find(std::begin(choice.kinds), std::end(choice.kinds), part.kind) !=
                           std::end(choice.kinds);
        if (meant && !has(part, choice.fields[0]) && !has(part, choice.fields[1]))
            faults.push_back({part.key, std::string(choice.fields[0]), std::string(choice.text)});
    }
}

void check_order(const Part& part, std::vector<BookFault>& faults) {
    const auto reversed = [&](const auto& first, const auto& last, const char* field,
                              const char* other) {
        if (first && last && *last < *first)
            faults.push_back({part.key, field,
                              "has " + std::string(field) + " " + field_text(part, field) +
                                  "; expected at least " + other + ", " + field_text(part, other)});
    };
    reversed(part.price_date, part.valid_until, "valid_until", "price_date");
    reversed(part.min_c, part.max_c, "max_c", "min_c");
    reversed(part.input_min_v, part.input_max_v, "input_max_v", "input_min_v");
    reversed(part.plate_width_mm, part.width_mm, "width_mm", "plate_width_mm");
    reversed(part.plate_height_mm, part.height_mm, "height_mm", "plate_height_mm");
    reversed(part.usable_depth_mm, part.depth_mm, "depth_mm", "usable_depth_mm");
}

void check_references(const PriceBook& book, const Part& part, std::vector<BookFault>& faults) {
    for (const auto& accessory : part.accessories)
        if (!book.find(accessory.part))
            faults.push_back({part.key, "accessory",
                              "needs " + accessory.part +
                                  ", which is not in the book: its price is "
                                  "left out"});
    if (!part.successor.empty() && !book.find(part.successor))
        faults.push_back({part.key, "successor",
                          "is followed by " + part.successor + ", which is not in the book"});
}

struct Platform {
    int controllers = 0, heads = 0, stations = 0, places = 0;
    bool modules = false, channels = false, bus_counted = false;
    std::set<std::string> signals;
};

std::map<std::string, Platform> platforms_of(const PriceBook& book) {
    std::map<std::string, Platform> platforms;
    for (const Part& part : book.parts()) {
        if (part.platform.empty()) continue;
        Platform& platform = platforms[part.platform];
        const bool module = part.kind == "module";
        platform.controllers += part.kind == "controller";
        platform.heads += part.kind == "head";
        platform.stations += part.stations_max;
        if (!module) platform.places += part.places;
        platform.modules = platform.modules || module;
        platform.channels = platform.channels || !part.groups.empty();
        platform.bus_counted = platform.bus_counted || (module && part.bus_ma > 0);
        for (const auto& group : part.groups)
            platform.signals.insert(group.signals.begin(), group.signals.end());
    }
    return platforms;
}

void check_platforms(const PriceBook& book, std::vector<BookFault>& faults) {
    const auto platforms = platforms_of(book);
    if (platforms.empty())
        faults.push_back(
            {"", "", "the book has no controller and no module: nothing can be built"});
    for (const auto& [name, platform] : platforms) {
        const auto add = [&, who = "platform " + name](const char* text) {
            faults.push_back({who, "", text});
        };
        if (platform.controllers == 0) add("has no controller: no box can be led by it");
        if (!platform.channels) add("has no module with channels: it serves no point");
        if (platform.controllers > 0 && platform.modules && platform.places == 0)
            add("has modules, but no controller and no head gives places: none can be set");
        if (platform.heads > 0 && platform.controllers > 0 && platform.stations == 0)
            add("has a head, but no controller may lead one (column stations_max)");
    }
}

/// A controller or head whose places are worth nothing.
void check_bus(const PriceBook& book, std::vector<BookFault>& faults) {
    const auto platforms = platforms_of(book);
    for (const Part& part : book.parts()) {
        const bool carries = part.kind == "controller" || part.kind == "head";
        if (!carries || part.places == 0 || part.bus_ma > 0) continue;
        const auto platform = platforms.find(part.platform);
        if (platform != platforms.end() && platform->second.bus_counted)
            faults.push_back({part.key, "bus_ma",
                              "gives no bus current, but modules of its platform take some: none "
                              "can stand on it"});
    }
}

void remark_part(const Part& part, const std::map<std::string, Platform>& platforms,
                 std::vector<BookFault>& remarks) {
    const auto platform = platforms.find(part.platform);
    if (part.kind == "module" && part.bus_ma == 0 && platform != platforms.end() &&
        platform->second.bus_counted)
        remarks.push_back({part.key, "bus_ma",
                           "has no bus current: it counts as none on the bus of its station"});
    if (!part.list && !part.allowance)
        remarks.push_back({part.key, "list", "has no price: it is chosen for nothing"});
    if (part.list && !part.price_date)
        remarks.push_back({part.key, "price_date",
                           "has a price without a date: nobody can tell whether it still holds"});
    if (part.allowance)
        remarks.push_back({part.key, "", "is an allowance: its figures are by hand"});
}

} // namespace

std::string fault_line(const BookFault& fault) {
    std::string line = fault.part + (fault.part.empty() ? "" : " ") + fault.text;
    if (const auto* field = find_part_field(fault.field))
        line += " (column " + fault.field + ": " + expectation(*field) + ")";
    return line;
}

std::vector<BookFault> check_book(const PriceBook& book) {
    std::vector<BookFault> faults;
    for (const auto kind : panel_kinds)
        if (book.of_kind(kind).empty())
            faults.push_back({"", "",
                              "the book has no part of the kind " + std::string(kind) +
                                  ": no panel can be built without"});
    check_platforms(book, faults);
    check_bus(book, faults);
    for (const Part& part : book.parts()) {
        check_fields(part, faults);
        check_order(part, faults);
        check_references(book, part, faults);
    }
    return faults;
}

std::vector<BookFault> book_remarks(const PriceBook& book,
                                    const std::vector<std::string>& signals) {
    std::vector<BookFault> remarks;
    const auto platforms = platforms_of(book);
    for (const auto& [name, platform] : platforms) {
        std::string missing;
        for (const auto& signal : signals)
            if (!platform.signals.contains(signal))
                missing += (missing.empty() ? "" : ", ") + signal;
        if (!missing.empty())
            remarks.push_back(
                {"platform " + name, "",
                 "serves no " + missing + ": such points need an interface or another platform"});
    }
    for (const Part& part : book.parts()) remark_part(part, platforms, remarks);
    return remarks;
}

} // namespace backplate
