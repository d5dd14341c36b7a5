#include "pricing/takeoff/heading_match.h"

#include <algorithm>
#include <array>

namespace backplate {
namespace {

constexpr std::size_t longest_heading = 120; ///< bytes; above it is no heading

constexpr auto kinds = std::array<std::string_view, 12>{
    "DI", "DO", "AI", "AO", "RTD", "TC", "CNT", "ENC", "PWM", "SERIAL", "IO_LINK", "soft"};
constexpr auto ranges =
    std::array<std::string_view, 6>{"milliamps", "volts", "dc24", "relay", "mains", "RTD"};

std::string without_brackets(std::string text) {
    for (auto open = text.find('('); open != std::string::npos; open = text.find('(')) {
        const auto close = text.find(')', open);
        text.erase(open, close == std::string::npos ? close : close - open + 1);
    }
    return text;
}

bool stands_in(const Squeezed& word, const Squeezed& text) {
    Match match;
    for (std::size_t at = 0; at < text.text.size(); ++at)
        if (matches_at(text, at, word, match)) return true;
    return false;
}

std::size_t role_of(std::string_view word) {
    return static_cast<std::size_t>(std::ranges::find(role_words, word) - role_words.begin());
}

/// "column C" as 2; nothing where the text is no such name.
std::optional<std::size_t> column_of_letters(std::string_view text) {
    constexpr std::string_view word = "column ";
    if (!text.starts_with(word) || text.size() > word.size() + 3) return std::nullopt;
    std::size_t column = 0;
    for (const char c : text.substr(word.size())) {
        if (c < 'A' || c > 'Z') return std::nullopt;
        column = column * 26 + static_cast<std::size_t>(c - 'A') + 1;
    }
    return column == 0 ? std::nullopt : std::optional(column - 1);
}

} // namespace

HeadingWords::HeadingWords(const std::vector<Spelling>& headings, const Lexicon& lexicon)
    : lexicon_(lexicon) {
    for (const Spelling& row : headings) {
        if (role_of(row.meaning) >= role_words.size()) continue;
        words_.push_back({role_of(row.meaning), squeeze(row.text)});
        const auto role = static_cast<Role>(words_.back().role);
        if (role == Role::type || role == Role::electrics)
            kind_headings_.insert(words_.back().text.text);
    }
}

std::string HeadingWords::kind_of(const Squeezed& text) const {
    const auto length = [&](std::string_view meaning) {
        const auto match = lexicon_.find(text, meaning);
        return match ? match->end - match->begin : 0;
    };
    for (const auto kind : kinds) {
        if (!lexicon_.begins(text, kind)) continue;
        if (lexicon_.is(text, kind)) return std::string(kind);
        for (const auto range : ranges)
            if (length(range) > 0 && length(kind) + length(range) == text.text.size())
                return std::string(kind);
    }
    for (const char* nature : {"digital", "analogue"})
        for (const char* direction : {"input", "output"})
            if (length(nature) > 0 && length(nature) + length(direction) == text.text.size())
                return std::string(*nature == 'd' ? "D" : "A") + (*direction == 'i' ? "I" : "O");
    return {};
}

bool HeadingWords::is_kind_heading(const std::string& text) const {
    return text.size() <= longest_heading && kind_headings_.contains(squeeze(text).text);
}

bool HeadingMatcher::match_choice(const std::string& cell, HeadingMatch& match) const {
    const Squeezed text = squeeze(cell);
    for (std::size_t i = 0; i < choices_.size(); ++i) {
        if (squeeze(choices_[i].column).text != text.text) continue;
        match.role = role_of(choices_[i].role);
        match.rank = i;
        match.whole = match.role < role_words.size();
        return true;
    }
    return false;
}

HeadingMatch HeadingMatcher::match_cell(const std::string& cell) const {
    HeadingMatch match;
    if (cell.size() > longest_heading) return match;
    match.heading = clean_text(cell);
    match.title = clean_text(without_brackets(match.heading));
    const Squeezed text = squeeze(match.title);
    if (text.empty() || match_choice(match.heading, match)) return match;
    std::size_t longest = 0;
    const auto& words = words_.words();
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool whole = words[i].text.text == text.text;
        const std::size_t length = words[i].text.text.size();
        if (!whole && (length <= longest || !stands_in(words[i].text, text))) continue;
        longest = length;
        match.role = words[i].role;
        match.rank = i;
        match.whole = whole;
        if (whole) return match;
    }
    match.kind = words_.kind_of(text);
    if (!match.kind.empty()) {
        match.role = role_words.size();
        match.whole = true;
    }
    return match;
}

RowMatches HeadingMatcher::match(const Cells& cells) const {
    RowMatches matches;
    for (const std::string& cell : cells) matches.push_back(match_cell(cell));
    const RowMatches chosen = by_letters();
    for (std::size_t i = 0; i < std::min(chosen.size(), matches.size()); ++i)
        if (chosen[i].whole) matches[i] = chosen[i];
    return matches;
}

RowMatches HeadingMatcher::by_letters() const {
    RowMatches matches;
    for (std::size_t i = 0; i < choices_.size(); ++i) {
        const auto column = column_of_letters(choices_[i].column);
        if (!column || *column > 1023) continue;
        matches.resize(std::max(matches.size(), *column + 1));
        HeadingMatch& match = matches[*column];
        match.role = role_of(choices_[i].role);
        match.rank = i;
        match.whole = match.role < role_words.size();
    }
    return matches;
}

} // namespace backplate
