#include <algorithm>
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
    {{"module"}, {"channels", "groups"}, "has no channels"},
    {{"enclosure"}, {"protection", "type_mark"}, "has neither an IP mark nor a type mark"},
    {{"network", "door", "cooling", "heater", "redundancy", "backup"},
     {"own_a", "own_w"},
     "has neither an own current nor an own power"},
};

/// What every panel takes at least one of.
constexpr std::string_view panel_kinds[] = {"supply", "incoming", "protection", "terminal",
                                            "rail",   "duct",     "wire",       "enclosure"};

bool has(const Part& part, std::string_view field) {
    return !field.empty() && !field_text(part, field).empty();
}

void check_fields(const Part& part, std::vector<BookFault>& faults) {
    for (const auto& field : part_fields())
        if (needed_by(field, part.kind) && !has(part, field.key))
            faults.push_back(
                {part.key, std::string(field.key), "is missing; expected " + expectation(field)});
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
                              "is " + field_text(part, field) + "; expected at least " + other +
                                  ", which is " + field_text(part, other)});
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
            faults.push_back(
                {part.key, "accessory", "needs " + accessory.part + ", which is not in the book"});
    if (!part.successor.empty() && !book.find(part.successor))
        faults.push_back({part.key, "successor",
                          "is followed by " + part.successor + ", which is not in the book"});
}

struct Platform {
    int controllers = 0, heads = 0, stations = 0;
    bool channels = false;
    std::set<std::string> signals;
};

std::map<std::string, Platform> platforms_of(const PriceBook& book) {
    std::map<std::string, Platform> platforms;
    for (const Part& part : book.parts()) {
        if (part.platform.empty()) continue;
        Platform& platform = platforms[part.platform];
        platform.controllers += part.kind == "controller";
        platform.heads += part.kind == "head";
        platform.stations += part.stations_max;
        platform.channels = platform.channels || !part.groups.empty();
        for (const auto& group : part.groups)
            platform.signals.insert(group.signals.begin(), group.signals.end());
    }
    return platforms;
}

void check_platforms(const PriceBook& book, std::vector<BookFault>& faults) {
    const auto platforms = platforms_of(book);
    if (platforms.empty()) faults.push_back({"", "", "the book has no controller and no module"});
    for (const auto& [name, platform] : platforms) {
        if (platform.controllers == 0)
            faults.push_back({name, "", "the platform has no controller"});
        if (!platform.channels)
            faults.push_back({name, "", "the platform has no module with channels"});
        if (platform.heads > 0 && platform.controllers > 0 && platform.stations == 0)
            faults.push_back({name, "", "the platform has a head, but no controller may lead one"});
    }
}

} // namespace

std::vector<BookFault> check_book(const PriceBook& book) {
    std::vector<BookFault> faults;
    for (const auto kind : panel_kinds)
        if (book.of_kind(kind).empty())
            faults.push_back({"", "", "the book has no part of the kind " + std::string(kind)});
    check_platforms(book, faults);
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
    for (const auto& [name, platform] : platforms_of(book)) {
        std::string missing;
        for (const auto& signal : signals)
            if (!platform.signals.contains(signal))
                missing += (missing.empty() ? "" : ", ") + signal;
        if (!missing.empty())
            remarks.push_back({name, "", "no module of the platform serves " + missing});
    }
    return remarks;
}

} // namespace backplate
