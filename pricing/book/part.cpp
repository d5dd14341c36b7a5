#include "pricing/book/part.h"

#include <algorithm>
#include <string_view>

namespace backplate {
namespace {

constexpr int most_channels = 1024;
constexpr double most_amperes = 100;

/// What stands before `mark`; the text keeps what stands behind it, or nothing.
std::string_view take_until(std::string_view& text, char mark) {
    const auto at = std::min(text.find(mark), text.size());
    const auto head = text.substr(0, at);
    text.remove_prefix(std::min(at + 1, text.size()));
    return head;
}

bool is_signal(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    });
}

std::optional<double> amperes(std::string_view text) {
    const auto value = parse_decimal(text);
    if (!value || value->digits < 0 || value->number() > most_amperes) return std::nullopt;
    return value->number();
}

bool read_signals(std::string_view text, ChannelGroup& group) {
    if (text.ends_with('|')) return false;
    while (!text.empty()) {
        const auto signal = take_until(text, '|');
        if (!is_signal(signal)) return false;
        group.signals.emplace_back(signal);
    }
    return !group.signals.empty();
}

bool read_ratings(std::string_view text, ChannelGroup& group) {
    const auto channel = amperes(take_until(text, '/'));
    if (!channel) return false;
    group.channel_a = *channel;
    if (text.empty()) return true;
    group.common_a = amperes(text);
    return group.common_a.has_value();
}

bool read_properties(std::string_view text, ChannelGroup& group) {
    while (!text.empty()) {
        const auto word = take_until(text, '+');
        if (word == "isolated")
            group.isolated = true;
        else if (word == "hart")
            group.hart = true;
        else if (word == "one_signal")
            group.one_signal = true;
        else if (word.size() > 4 && word.starts_with("if(") && word.ends_with(")"))
            group.condition = word.substr(3, word.size() - 4);
        else
            return false;
    }
    return true;
}

/// "DO*10@0.5/4+isolated"
std::optional<ChannelGroup> read_group(std::string_view text) {
    ChannelGroup group;
    if (text.ends_with('+')) return std::nullopt;
    auto ratings = take_until(text, '+');
    if (ratings.ends_with('@') || ratings.ends_with('/')) return std::nullopt;
    auto counted = take_until(ratings, '@');
    const auto signals = take_until(counted, '*');
    const auto channels = parse_decimal(counted);
    if (!channels || channels->places > 0 || channels->digits < 1 ||
        channels->digits > most_channels)
        return std::nullopt;
    group.channels = static_cast<int>(channels->digits);
    if (!read_signals(signals, group) || !read_properties(text, group)) return std::nullopt;
    if (!ratings.empty() && !read_ratings(ratings, group)) return std::nullopt;
    return group;
}

std::string group_text(const ChannelGroup& group) {
    std::string text;
    for (const auto& signal : group.signals) text += (text.empty() ? "" : "|") + signal;
    text += "*" + std::to_string(group.channels);
    if (group.channel_a > 0 || group.common_a) text += "@" + number_text(group.channel_a);
    if (group.common_a) text += "/" + number_text(*group.common_a);
    if (group.isolated) text += "+isolated";
    if (group.hart) text += "+hart";
    if (group.one_signal) text += "+one_signal";
    if (!group.condition.empty()) text += "+if(" + group.condition + ")";
    return text;
}

} // namespace

bool Part::states_approval(const std::string& word) const {
    return (";" + approvals + ";").find(";" + word + ";") != std::string::npos;
}

std::optional<Money> Part::net_anew() const {
    if (!list) return std::nullopt;
    return after_discounts(*list, discounts.data(), discounts.data() + discounts.size());
}

std::optional<std::vector<ChannelGroup>> parse_groups(const std::string& text) {
    std::vector<ChannelGroup> groups;
    std::string_view rest = text;
    if (rest.ends_with(';')) return std::nullopt;
    while (!rest.empty()) {
        const auto group = read_group(take_until(rest, ';'));
        if (!group) return std::nullopt;
        groups.push_back(*group);
    }
    return groups;
}

std::string groups_text(const std::vector<ChannelGroup>& groups) {
    std::string text;
    for (const auto& group : groups) text += (text.empty() ? "" : ";") + group_text(group);
    return text;
}

} // namespace backplate
