#include "pricing/book/part_readers.h"

#include <algorithm>
#include <cctype>

namespace backplate {
namespace {

/// The parts of a text between marks; at least one, maybe empty.
std::vector<std::string_view> split(std::string_view text, char mark) {
    std::vector<std::string_view> parts;
    for (;;) {
        const auto at = text.find(mark);
        parts.push_back(text.substr(0, at));
        if (at == std::string_view::npos) return parts;
        text.remove_prefix(at + 1);
    }
}

std::optional<Accessory> read_accessory(std::string_view cell) {
    const auto parts = split(cell, '*');
    const auto count = parts.size() == 2 ? integer_in(parts[1], 1, 100) : 1;
    if (parts.size() > 2 || !count || !is_line(parts[0])) return std::nullopt;
    return Accessory{std::string(parts[0]), *count};
}

/// "IP54": letters, two figures or X, the second figure up to 9.
bool is_ip_code(std::string_view text) {
    const auto within = [](char c, char most) { return c == 'X' || (c >= '0' && c <= most); };
    return text.size() == 4 && text.starts_with("IP") && within(text[2], '6') &&
           within(text[3], '9');
}

const ChannelGroup* short_group(const Part& part) {
    if (part.groups.size() != 1) return nullptr;
    const ChannelGroup& group = part.groups.front();
    const bool plain = !group.common_a && !group.isolated && !group.hart && !group.one_signal &&
                       group.condition.empty();
    return plain && group.signals.size() == 1 ? &group : nullptr;
}

ChannelGroup& only_group(Part& part) {
    if (part.groups.empty()) part.groups.emplace_back();
    return part.groups.front();
}

} // namespace

std::optional<double> number_in(std::string_view cell, double low, double high) {
    const auto decimal = parse_decimal(cell);
    if (!decimal || decimal->number() < low || decimal->number() > high) return std::nullopt;
    return decimal->number();
}

std::optional<int> integer_in(std::string_view cell, double low, double high) {
    const auto value = number_in(cell, low, high);
    if (!value || !to_steps(*parse_decimal(cell), 0)) return std::nullopt;
    return static_cast<int>(*value);
}

bool is_line(std::string_view cell) {
    const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; };
    return !cell.empty() && cell.front() != ' ' && cell.back() != ' ' &&
           std::none_of(cell.begin(), cell.end(), control);
}

bool is_word_of(std::string_view cell, std::span<const std::string_view> words) {
    return std::find(words.begin(), words.end(), cell) != words.end();
}

bool read_key(Part& part, std::string_view cell) {
    if (!is_line(cell) || cell.size() > 64) return false;
    if (cell.find_first_of("*;/\"") != std::string_view::npos || cell.front() == '#') return false;
    part.key = cell;
    return true;
}

bool read_list(Part& part, std::string_view cell) {
    const auto list = Money::parse(cell);
    if (!list || *list < Money{} || *list > Money::whole(100'000'000)) return false;
    part.list = *list;
    return true;
}

std::string write_list(const Part& part) { return part.list ? part.list->unit_text(2) : ""; }

bool read_discounts(Part& part, std::string_view cell) {
    std::vector<Percent> discounts;
    for (const auto piece : split(cell, '/')) {
        const auto percent = Percent::parse(piece);
        if (!percent || *percent < Percent{} || *percent > Percent::whole(100)) return false;
        discounts.push_back(*percent);
    }
    part.discounts = std::move(discounts);
    return true;
}

std::string write_discounts(const Part& part) {
    std::string text;
    for (const auto percent : part.discounts) text += (text.empty() ? "" : "/") + percent.text();
    return text;
}

bool read_accessories(Part& part, std::string_view cell) {
    std::vector<Accessory> accessories;
    for (const auto piece : split(cell, ';')) {
        const auto accessory = read_accessory(piece);
        if (!accessory) return false;
        accessories.push_back(*accessory);
    }
    part.accessories = std::move(accessories);
    return true;
}

std::string write_accessories(const Part& part) {
    std::string text;
    for (const auto& accessory : part.accessories) {
        text += (text.empty() ? "" : ";") + accessory.part;
        if (accessory.quantity != 1) text += "*" + std::to_string(accessory.quantity);
    }
    return text;
}

bool read_combinations(Part& part, std::string_view cell) {
    std::vector<Combination> combinations;
    for (const auto piece : split(cell, ';')) {
        const auto at = piece.rfind('@');
        if (at == std::string_view::npos || at == 0) return false;
        const auto ka = number_in(piece.substr(at + 1), 0.01, 200);
        if (!ka || !is_line(piece.substr(0, at))) return false;
        combinations.push_back({std::string(piece.substr(0, at)), *ka});
    }
    part.combinations = std::move(combinations);
    return true;
}

std::string write_combinations(const Part& part) {
    std::string text;
    for (const Combination& each : part.combinations)
        text += (text.empty() ? "" : ";") + each.part + "@" + number_text(each.ka);
    return text;
}

bool read_protection(Part& part, std::string_view cell) {
    if (is_word_of(cell, type_marks)) {
        part.type_mark = cell;
        return true;
    }
    const auto codes = split(cell, '/');
    if (codes.size() > 2 || !std::all_of(codes.begin(), codes.end(), is_ip_code)) return false;
    part.ip_mark = cell;
    return true;
}

bool read_signal(Part& part, std::string_view cell) {
    const auto groups = parse_groups(std::string(cell) + "*1");
    if (!groups || groups->size() != 1) return false;
    only_group(part).signals = groups->front().signals;
    return true;
}

std::string write_signal(const Part& part) {
    const auto* group = short_group(part);
    return group ? group->signals.front() : "";
}

bool read_channels(Part& part, std::string_view cell) {
    const auto channels = integer_in(cell, 1, 1024);
    if (channels) only_group(part).channels = *channels;
    return channels.has_value();
}

std::string write_channels(const Part& part) {
    const auto* group = short_group(part);
    return group ? std::to_string(group->channels) : "";
}

bool read_channel_a(Part& part, std::string_view cell) {
    const auto amps = number_in(cell, 0, 100);
    if (amps) only_group(part).channel_a = *amps;
    return amps.has_value();
}

std::string write_channel_a(const Part& part) {
    const auto* group = short_group(part);
    return group ? number_text(group->channel_a) : "";
}

bool read_groups(Part& part, std::string_view cell) {
    auto groups = parse_groups(std::string(cell));
    if (!groups || groups->empty()) return false;
    part.groups = std::move(*groups);
    return true;
}

std::string write_groups(const Part& part) {
    return short_group(part) ? "" : groups_text(part.groups);
}

} // namespace backplate
