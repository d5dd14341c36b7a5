#include "pricing/book/part_fields.h"

#include <algorithm>
#include <array>

#include "pricing/book/part_readers.h"

namespace backplate {
namespace {

using Words = std::span<const std::string_view>;

constexpr std::string_view kinds[] = {
    "controller", "head",     "feed",     "module",      "accessory",  "interface",   "supply",
    "redundancy", "backup",   "incoming", "main_switch", "protection", "transformer", "device",
    "network",    "terminal", "rail",     "duct",        "wire",       "enclosure",   "cooling",
    "heater",     "door",     "labels",   "equipment",   "plate"};
constexpr std::string_view states[] = {"current", "phasing_out", "discontinued"};
constexpr std::string_view units[] = {"piece", "metre", "set", "lump_sum"};
constexpr std::string_view rest_owners[] = {"stock", "job"};
constexpr std::string_view materials[] = {"painted_steel",    "stainless",     "aluminium",
                                          "glass_reinforced", "polycarbonate", "insulated"};
constexpr std::string_view mountings[] = {"wall", "floor"};
constexpr std::string_view stages[] = {"circulation_fan", "filter_fan", "air_exchanger",
                                       "water_exchanger", "cooling_unit"};
constexpr std::string_view input_forms[] = {"ac", "dc", "ac_dc"};
constexpr std::string_view practices[] = {"iec", "north_america"};

constexpr std::string_view platform_kinds = "controller head feed module";
constexpr std::string_view platform_and_extension = "controller head feed module accessory";
constexpr std::string_view electronic_kinds =
    "controller head feed module interface supply redundancy backup";
constexpr std::string_view placed_kinds = "controller head feed module interface supply redundancy "
                                          "backup incoming main_switch protection "
                                          "transformer device network terminal enclosure";
constexpr std::string_view rated_kinds = "supply redundancy backup incoming main_switch protection";
constexpr double volts = 24;          ///< that own_a is stated at
constexpr double own_a_steps = 10000; ///< in 1 A, where it follows from own_w
constexpr std::string_view one_line = "a text on one line";
constexpr std::string_view one_date = "a date such as 2026-11-24";
constexpr std::string_view one_group = "signals in capitals, such as DI or AI_MA|AI_V";

template <auto member, auto low, auto high>
constexpr PartField number(std::string_view key, std::string_view unit, std::string_view of,
                           bool required, std::string_view explanation) {
    constexpr auto reader = read_number<member, low, high>;
    constexpr auto writer = write_number<member>;
    constexpr std::string_view form = is_whole<MemberValue<member>> ? "a whole number" : "a number";
    return {key, unit, of, required, low, high, explanation, reader, writer, form, {}};
}

template <auto member>
constexpr PartField text(std::string_view key, std::string_view of, bool required,
                         std::string_view explanation) {
    constexpr auto reader = read_text<member>;
    constexpr auto writer = write_text<member>;
    return {key, "", of, required, 0, 0, explanation, reader, writer, one_line, {}};
}

template <auto member, const auto& words>
constexpr PartField word(std::string_view key, std::string_view of, bool required,
                         std::string_view explanation) {
    constexpr auto reader = read_word<member, words>;
    constexpr auto writer = write_text<member>;
    return {key, "", of, required, 0, 0, explanation, reader, writer, {}, Words(words)};
}

template <auto reader, auto writer>
constexpr PartField own_form(std::string_view key, std::string_view unit, std::string_view of,
                             std::string_view explanation, std::string_view form) {
    return {key, unit, of, key == "part", 0, 0, explanation, reader, writer, form, {}};
}

template <auto member>
constexpr PartField date(std::string_view key, std::string_view explanation) {
    return own_form<read_date<member>, write_date<member>>(key, "", "", explanation, one_date);
}

template <auto member>
constexpr PartField flag(std::string_view key, std::string_view of, std::string_view explanation) {
    constexpr auto reader = read_flag<member>;
    constexpr auto writer = write_flag<member>;
    return {key, "", of, false, 0, 0, explanation, reader, writer, "yes or no", {}};
}

/// A field that an allowance may leave out.
constexpr PartField offered(PartField field) {
    field.offered_only = true;
    return field;
}

constexpr PartField fields[] = {
    own_form<read_key, write_text<&Part::key>>("part", "", "", "key of the article",
                                               "a key of at most 64 characters on one line, "
                                               "without * ; / and quotes, not beginning with #"),
    word<&Part::kind, kinds>("kind", "", true, "what the article is"),
    text<&Part::function>("function", "", false, "what it does within its kind, as rule rows say"),
    text<&Part::description>("description", "", true, "text on the bill"),
    text<&Part::maker>("maker", "", false, "who makes it"),
    text<&Part::platform>("platform", platform_and_extension, false, "what fits together"),

    own_form<read_list, write_list>("list", "currency", "", "list price of one unit",
                                    "an amount from 0 to 100000000 with at most four decimals"),
    own_form<read_discounts, write_discounts>("discount_percent", "%", "",
                                              "discounts, one after the other",
                                              "discounts from 0 to 100 such as 30/10"),
    word<&Part::unit, units>("unit", "", false, "what is counted"),
    date<&Part::price_date>("price_date", "day of the price"),
    date<&Part::valid_until>("valid_until", "last day of the price"),
    number<&Part::lead_days, 0, 3650>("lead_days", "days", "", false,
                                      "time of delivery in calendar days"),
    number<&Part::pack, 1, 100000>("pack", "pieces", "", false, "pieces in a pack"),
    number<&Part::minimum_order, 1, 100000>("minimum_order", "pieces", "", false,
                                            "fewest pieces sold at once"),
    number<&Part::stock, 0, 1000000>("stock", "pieces", "", false, "pieces in the own store"),
    word<&Part::rest_to, rest_owners>("rest_to", "", false, "who keeps the rest of a pack"),

    number<&Part::width_mm, 0, 5000>("width_mm", "mm", placed_kinds, true, "width"),
    offered(number<&Part::height_mm, 0, 5000>("height_mm", "mm", placed_kinds, true, "height")),
    offered(number<&Part::depth_mm, 0, 5000>("depth_mm", "mm", placed_kinds, true, "depth")),
    number<&Part::length_mm, 1, 10000>("length_mm", "mm", "rail duct", false, "length of a piece"),

    number<&Part::own_a, 0, 200>("own_a", "A", "controller head feed module interface", true,
                                 "own current at 24 V, channels apart"),
    number<&Part::own_w, 0, 10000>("own_w", "W", "", false,
                                   "own power where it is not own current at 24 V"),
    own_form<read_signal, write_signal>("signal", "", platform_kinds, "what the channels serve",
                                        "signals in capitals, such as DI or AI_MA|AI_V"),
    own_form<read_channels, write_channels>("channels", "", platform_kinds, "channels",
                                            "a whole number from 1 to 1024"),
    own_form<read_channel_a, write_channel_a>("channel_a", "A", platform_kinds,
                                              "current of a channel", "a number from 0 to 100 A"),
    own_form<read_groups, write_groups>("groups", "", platform_kinds, "groups of channels",
                                        "groups such as DI*14@0.004;DO*10@0.5/4+isolated"),
    number<&Part::places, 0, 1000>("places", "", "head module", true,
                                   "places given (controller, head) or taken (module, feed)"),
    number<&Part::bus_ma, 0, 100000>("bus_ma", "mA", "feed", true,
                                     "bus current given (controller, head, feed) or taken"),
    number<&Part::stations_max, 0, 1000>("stations_max", "", "controller", false,
                                         "heads that it may lead"),
    own_form<read_accessories, write_accessories>("accessory", "", "",
                                                  "what it needs to be complete",
                                                  "keys of parts such as CON-16 or CON-16*2;END-1"),

    number<&Part::rated_a, 0.1, 6300>("rated_a", "A", rated_kinds, true, "rated current"),
    text<&Part::efficiency_row>("efficiency_row", "supply", true, "group of the loss rows"),
    number<&Part::rated_ka, 0, 200>("rated_ka", "kA", "", false, "short-circuit rating"),
    own_form<read_combinations, write_combinations>(
        "combined_ka", "kA", "", "short-circuit rating behind other parts, as documented",
        "keys of parts with kA such as BRK-25@10 or BRK-25@10;FUSE-30@100"),
    number<&Part::tight_factor, 0, 1>("tight_factor", "", "supply", false,
                                      "share of the rating with others close beside it"),
    number<&Part::inrush_a, 0, 1000>("inrush_a", "A", "supply", false,
                                     "peak current when switched on"),
    number<&Part::min_c, -60, 60>("min_c", "°C", "", false, "lowest air temperature"),
    offered(number<&Part::max_c, 20, 120>("max_c", "°C", electronic_kinds, true,
                                          "highest air temperature")),
    number<&Part::input_min_v, 0, 1000>("input_min_v", "V", "supply", false, "lowest input"),
    number<&Part::input_max_v, 0, 1000>("input_max_v", "V", "supply", false, "highest input"),
    number<&Part::phases, 1, 3>("phases", "", "supply incoming main_switch", false, "phases"),
    number<&Part::poles, 1, 4>("poles", "", "incoming main_switch", false,
                               "conductors that it opens; empty: as many as phases"),
    word<&Part::input_form, input_forms>("input_form", "", false,
                                         "current of the mains that it takes; empty: ac"),
    number<&Part::section_mm2, 0.05, 1000>("section_mm2", "mm²", "wire terminal", false,
                                           "cross-section of a wire, largest of a terminal"),

    number<&Part::output_v, 5, 690>("output_v", "V", "supply transformer", false,
                                    "output voltage; empty: 24 V DC"),
    number<&Part::rated_va, 1, 100000>("rated_va", "VA", "transformer", true, "rated power"),
    number<&Part::capacity_wh, 0.01, 100000>("capacity_wh", "Wh", "backup", true,
                                             "usable energy of one piece"),
    flag<&Part::pair>("pair", "controller", "two of them may run as a redundant pair"),

    own_form<read_protection, write_text<&Part::ip_mark>>(
        "protection", "", "enclosure cooling", "IP mark",
        "a mark such as IP54, IP66/IP67 or Type 12"),
    word<&Part::type_mark, type_marks>("type_mark", "enclosure cooling", false, "type mark"),
    word<&Part::material, materials>("material", "enclosure", true, "material of the walls"),
    text<&Part::finish>("finish", "enclosure", false, "outer finish, a row of the solar table"),
    word<&Part::mounting, mountings>("mounting", "enclosure", false, "hung or standing"),
    number<&Part::plate_width_mm, 1, 5000>("plate_width_mm", "mm", "enclosure plate", true,
                                           "width of the mounting plate"),
    number<&Part::plate_height_mm, 1, 5000>("plate_height_mm", "mm", "enclosure plate", true,
                                            "height of the mounting plate"),
    number<&Part::usable_depth_mm, 1, 5000>("usable_depth_mm", "mm", "enclosure", false,
                                            "from the plate to the door"),
    number<&Part::prep_minutes, 0, 10000>("prep_minutes", "min", "enclosure", false,
                                          "preparation, in place of the rule row"),
    number<&Part::cutout_factor, 0.1, 20>("cutout_factor", "", "enclosure", false,
                                          "on the time of every opening"),
    word<&Part::stage, stages>("stage", "cooling", false, "stage of cooling that it makes"),
    number<&Part::flow_m3h, 0, 10000>("flow_m3h", "m³/h", "cooling", false,
                                      "flow as installed, with filter and outlet"),
    number<&Part::cooling_w, 0, 100000>("cooling_w", "W", "cooling", false,
                                        "useful cooling at 35 °C in and out"),
    number<&Part::cooling_hot_w, 0, 100000>("cooling_hot_w", "W", "cooling", false,
                                            "useful cooling at 35 °C inside and 50 °C outside"),
    number<&Part::cooling_w_k, 0, 10000>("cooling_w_k", "W/K", "cooling", false,
                                         "useful cooling of an air exchanger at sea level"),
    word<&Part::practice, practices>("practice", "", false, "for one practice only"),
    word<&Part::state, states>("state", "", false, "whether it is still made"),
    text<&Part::successor>("successor", "", false, "part that takes its place"),
    text<&Part::approvals>("approvals", "", false, "approvals held, joined by ;"),
    flag<&Part::allowance>("allowance", "",
                           "figures by hand, no offer behind the price: height, depth and highest "
                           "air temperature may stay empty, own current may follow from own_w"),
    flag<&Part::demo>("demo", "", "invented data"),
};

bool lists(std::string_view words, std::string_view word) {
    while (!words.empty()) {
        const auto end = std::min(words.find(' '), words.size());
        if (words.substr(0, end) == word) return true;
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return false;
}

} // namespace

std::span<const PartField> part_fields() { return fields; }

const PartField* find_part_field(std::string_view key) {
    const auto* found = std::find_if(std::begin(fields), std::end(fields),
                                     [&](const PartField& field) { return field.key == key; });
    return found == std::end(fields) ? nullptr : found;
}

std::span<const std::string_view> part_kinds() { return kinds; }

bool needed_by(const PartField& field, std::string_view kind) {
    return field.required && (field.kinds.empty() || lists(field.kinds, kind));
}

bool needed_by(const PartField& field, const Part& part) {
    if (part.allowance && field.key == "list") return true;
    return needed_by(field, part.kind) && !(part.allowance && field.offered_only);
}

std::string expectation(const PartField& field) {
    std::string text(field.form);
    for (const auto word_of_it : field.words)
        text += (text.empty() ? "one of " : ", ") + std::string(word_of_it);
    if (field.maximum == 0) return text;
    text += " from " + number_text(field.minimum) + " to " + number_text(field.maximum);
    return field.unit.empty() ? text : text + " " + std::string(field.unit);
}

void fill_part_defaults(Part& part) {
    if (lists(platform_kinds, part.kind) && part.platform.empty()) part.platform = "compact";
    if (part.kind == "enclosure" && part.mounting.empty()) part.mounting = "wall";
    if (part.kind == "cooling" && part.stage.empty())
        part.stage = part.cooling_w     ? "cooling_unit"
                     : part.cooling_w_k ? "air_exchanger"
                     : part.flow_m3h    ? "filter_fan"
                                        : "circulation_fan";
    if (!part.allowance) return;
    if (part.kind == "module" && part.places == 0) part.places = 1;
    if (!part.own_a && part.own_w && lists(electronic_kinds, part.kind))
        part.own_a =
            static_cast<double>(need_in(*part.own_w / volts, 1 / own_a_steps)) / own_a_steps;
}

std::string field_text(const Part& part, std::string_view key) {
    const auto* field = find_part_field(key);
    return field ? field->write(part) : "";
}

} // namespace backplate
