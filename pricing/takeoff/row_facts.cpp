#include "pricing/takeoff/row_facts.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace backplate {
namespace {

constexpr int most_pieces = 100'000;

/// As spreadsheets write them, in English and in German.
constexpr std::array<std::string_view, 12> error_words{"#NULL!", "#DIV/0!", "#VALUE!", "#REF!",
                                                       "#NAME?", "#NUM!",   "#N/A",    "#BEZUG!",
                                                       "#WERT!", "#ZAHL!",  "#NULL?",  "#NV"};

bool allowed_for(const std::string& applies_to, const std::string& signal) {
    const std::string padded = " " + applies_to + " ";
    return padded.find(" " + signal + " ") != std::string::npos;
}

/// The text after a whole number and zeros behind its decimal mark.
std::string_view after_whole(std::string_view rest) {
    if (rest.empty() || (rest[0] != '.' && rest[0] != ',')) return rest;
    const auto end = std::min(rest.find_first_not_of('0', 1), rest.size());
    return end == 1 ? rest : rest.substr(end);
}

} // namespace

Quantity read_quantity(const std::string& cell, const Lexicon& lexicon) {
    if (is_error_cell(cell)) return {0, true, "error_cell_qty"};
    const Squeezed squeezed = squeeze(cell);
    if (squeezed.empty() || lexicon.is(squeezed, "filler")) return {};
    if (cell[0] == '-' || cell.starts_with("\u2212")) return {0, true, "qty_negative"};
    Quantity quantity{0, true, {}};
    const char* end = cell.data() + cell.size();
    const auto [stop, error] = std::from_chars(cell.data(), end, quantity.pieces);
    const Squeezed rest = squeeze(after_whole({stop, static_cast<std::size_t>(end - stop)}));
    const bool whole = error == std::errc{} && quantity.pieces <= most_pieces &&
                       (rest.empty() || lexicon.is(rest, "pieces"));
    if (!whole) quantity.refusal = "qty_not_integer";
    return quantity;
}

bool has_decimal_comma(const std::string& text) {
    const auto is_digit = [&](std::size_t at) {
        return at < text.size() && text[at] >= '0' && text[at] <= '9';
    };
    for (auto at = text.find(','); at != std::string::npos; at = text.find(',', at + 1))
        if (at > 0 && is_digit(at - 1) && is_digit(at + 1)) return true;
    return false;
}

bool is_error_cell(const std::string& cell) {
    return std::ranges::find(error_words, cell) != error_words.end();
}

std::string wiring_said(const Squeezed& texts, const std::string& signal, const Lexicon& lexicon,
                        const RuleBook& rules) {
    const auto said = lexicon.words_said(texts, "wiring");
    if (said.size() != 1) return {};
    const bool allowed = std::ranges::any_of(rules.words, [&](const WordRow& row) {
        return row.key == "boxes[].points[].wiring" && row.word == *said.begin() &&
               allowed_for(row.applies_to, signal);
    });
    return allowed ? *said.begin() : std::string{};
}

std::string mains_volts(const Squeezed& texts, const Lexicon& lexicon) {
    const auto match = lexicon.find(texts, "mains");
    return match && match->numbers.size() == 1 ? match->numbers[0] : std::string{};
}

std::string panel_of_title(const Cells& cells, const Lexicon& lexicon) {
    const auto is_name = [](const std::string& text) {
        return text.find(' ') == std::string::npos &&
               text.find_first_of("0123456789") != std::string::npos;
    };
    bool named = false;
    for (const std::string& cell : cells) {
        const std::string text = clean_text(cell);
        if (text.empty()) continue;
        const std::string panel = panel_of_section(text, lexicon);
        if (is_name(panel)) return panel;
        if (named && is_name(text)) return text;
        named = lexicon.is(squeeze(text), "panel");
    }
    return {};
}

std::string panel_of_section(const std::string& text, const Lexicon& lexicon) {
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find(' ', at), text.size());
        const Squeezed word = squeeze(text.substr(at, end - at));
        at = std::min(end + 1, text.size());
        if (lexicon.is(word, "panel")) return text.substr(at);
    }
    return {};
}

} // namespace backplate
