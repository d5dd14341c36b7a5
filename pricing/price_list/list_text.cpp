#include "pricing/price_list/list_text.h"

#include <algorithm>
#include <array>

#include "pricing/takeoff/plain_text.h"
#include "pricing/values/date.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

struct CurrencySign {
    std::string_view sign, currency;
};

/// A sign that several currencies share stays a sign, which is no currency of a price book.
constexpr auto signs =
    std::array{CurrencySign{"€", "EUR"}, CurrencySign{"£", "GBP"}, CurrencySign{"$", "$"},
               CurrencySign{"¥", "¥"}, CurrencySign{"zł", "PLN"}};

constexpr auto unseen_marks = std::array<std::string_view, 4>{"’", "'", "\u202F", "\u00A0"};
constexpr auto hyphens = std::array<std::string_view, 8>{"\u2010", "\u2011", "\u2012", "\u2013",
                                                         "\u2014", "\u2212", "\u00AD", "-"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }

std::string without(std::string text, std::string_view piece) {
    for (auto at = text.find(piece); at != std::string::npos; at = text.find(piece, at))
        text.erase(at, piece.size());
    return text;
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

/// A currency as a code or a sign; nothing where the text is neither.
std::optional<std::string> currency_of(std::string_view text) {
    text = trimmed(text);
    if (text.size() == 3 && std::all_of(text.begin(), text.end(), is_capital))
        return std::string(text);
    for (const CurrencySign& each : signs)
        if (text == each.sign) return std::string(each.currency);
    return std::nullopt;
}

std::string row_text(int row) { return "row " + std::to_string(row); }

/// What one amount says about the decimal mark; nothing where it says nothing.
std::optional<char> mark_said(std::string_view figures, bool& open) {
    const auto points = std::count(figures.begin(), figures.end(), '.');
    const auto commas = std::count(figures.begin(), figures.end(), ',');
    if (points + commas == 0) return std::nullopt;
    if (points > 0 && commas > 0) return figures.rfind('.') > figures.rfind(',') ? '.' : ',';
    const char mark = points > 0 ? '.' : ',', other = points > 0 ? ',' : '.';
    if (points + commas > 1) return other;
    const auto at = figures.find(mark);
    const bool group = figures.size() - at - 1 == 3 && at >= 1 && at <= 3 && figures[0] != '0';
    if (!group) return mark;
    open = true;
    return std::nullopt;
}

struct DateText {
    std::string first, second, year;
    char mark = 0;
};

/// "24.11.2026" in its pieces.
std::optional<DateText> split_date(std::string_view text) {
    const auto mark = text.find_first_of("./");
    if (mark == std::string_view::npos) return std::nullopt;
    const auto next = text.find(text[mark], mark + 1);
    if (next == std::string_view::npos) return std::nullopt;
    DateText date{std::string(text.substr(0, mark)),
                  std::string(text.substr(mark + 1, next - mark - 1)),
                  std::string(text.substr(next + 1)), text[mark]};
    for (std::string* piece : {&date.first, &date.second}) {
        if (piece->size() == 1) piece->insert(piece->begin(), '0');
        if (piece->size() != 2) return std::nullopt;
    }
    return date;
}

/// A day without the time behind it.
std::string day_only(std::string_view cell) {
    const std::string text = clean_text(cell);
    return text.substr(0, text.find_first_of(" T"));
}

} // namespace

std::optional<AmountText> split_amount(std::string_view cell) {
    const std::string text = clean_text(cell);
    const auto first = text.find_first_of("0123456789");
    if (first == std::string::npos) return AmountText{};
    const auto last = text.find_last_of("0123456789");
    std::size_t begin = first;
    if (begin > 0 && (text[begin - 1] == '-' || text[begin - 1] == '.' || text[begin - 1] == ','))
        --begin;
    AmountText amount{text.substr(begin, last - begin + 1), ""};
    for (const std::string_view beside :
         {std::string_view(text).substr(0, begin), std::string_view(text).substr(last + 1)}) {
        if (trimmed(beside).empty()) continue;
        const auto currency = currency_of(beside);
        if (!currency || !amount.currency.empty()) return std::nullopt;
        amount.currency = *currency;
    }
    return amount;
}

char find_decimal_mark(const std::string& name, const std::vector<PlacedText>& amounts) {
    const PlacedText *said = nullptr, *open = nullptr;
    char mark = '.';
    for (const PlacedText& amount : amounts) {
        bool unclear = false;
        const auto one = mark_said(amount.text, unclear);
        if (unclear && !open) open = &amount;
        if (!one) continue;
        if (said && *one != mark)
            throw BadInput(name + ": " + row_text(said->row) + ": '" + said->text + "' and " +
                           row_text(amount.row) + ": '" + amount.text +
                           "' have different decimal marks; expected one, or \"decimal\" in the "
                           "map");
        if (!said) said = &amount;
        mark = *one;
    }
    if (!said && open)
        throw BadInput(name + ": " + row_text(open->row) + ": '" + open->text +
                       "' may have decimals or thousands and no other amount tells; expected "
                       "\"decimal\": \",\" or \".\" in the map");
    return mark;
}

std::optional<std::string> plain_number(std::string_view figures, char decimal) {
    std::string text(figures);
    for (const auto mark : unseen_marks)
        for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark))
            text.replace(at, mark.size(), " ");
    const auto point = text.find(decimal);
    std::string whole = text.substr(0, point);
    const std::string rest = point == std::string::npos ? "" : text.substr(point + 1);
    if (!std::all_of(rest.begin(), rest.end(), is_digit)) return std::nullopt;
    const bool minus = whole.starts_with('-');
    if (minus) whole.erase(0, 1);
    std::string digits;
    const char thousands = decimal == ',' ? '.' : ',';
    const auto mark = whole.find_first_of(std::string(" ") + thousands);
    for (std::size_t i = 0; i < whole.size(); ++i) {
        if (is_digit(whole[i])) {
            digits += whole[i];
            continue;
        }
        const bool here = mark != std::string::npos && whole[i] == whole[mark];
        if (!here || mark == 0 || mark > 3 || (whole.size() - i) % 4 != 0) return std::nullopt;
    }
    const bool grouped =
        mark == std::string::npos || digits.size() == mark + (whole.size() - mark) / 4 * 3;
    if (!grouped || (digits.empty() && rest.empty())) return std::nullopt;
    return (minus ? "-" : "") + (digits.empty() ? "0" : digits) + (rest.empty() ? "" : "." + rest);
}

bool find_day_first(const std::string& name, const std::vector<PlacedText>& dates) {
    const PlacedText *day = nullptr, *month = nullptr, *open = nullptr;
    for (const PlacedText& each : dates) {
        const auto date = split_date(day_only(each.text));
        if (!date || date->mark == '.') continue;
        const bool day_leads = date->first > "12", month_leads = date->second > "12";
        if (day_leads && !day) day = &each;
        if (month_leads && !month) month = &each;
        if (!day_leads && !month_leads && !open) open = &each;
    }
    if (day && month)
        throw BadInput(name + ": " + row_text(day->row) + ": '" + day->text + "' and " +
                       row_text(month->row) + ": '" + month->text +
                       "' have day and month in different order; expected one");
    if (!day && !month && open)
        throw BadInput(name + ": " + row_text(open->row) + ": '" + open->text +
                       "' may begin with the day or the month and no other date tells; expected "
                       "\"dates\": \"day_first\" or \"month_first\" in the map");
    return month == nullptr;
}

std::optional<std::string> plain_date(std::string_view cell, bool day_first) {
    std::string text = day_only(cell);
    if (text.size() == 8 && std::all_of(text.begin(), text.end(), is_digit))
        text = text.substr(0, 4) + "-" + text.substr(4, 2) + "-" + text.substr(6);
    if (const auto date = split_date(text)) {
        const bool swap = day_first || date->mark == '.';
        text = date->year + "-" + (swap ? date->second : date->first) + "-" +
               (swap ? date->first : date->second);
    }
    return Date::parse(text) ? std::optional(text) : std::nullopt;
}

std::string folded_key(std::string_view key) {
    std::string text = without(lower_ascii(clean_text(key)), " ");
    for (const auto hyphen : hyphens) text = without(std::move(text), hyphen);
    for (char& c : text)
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
}

} // namespace backplate
