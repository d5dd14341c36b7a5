#include "pricing/price_list/list_columns.h"

#include <algorithm>

#include "pricing/request/check_request.h"
#include "pricing/takeoff/plain_text.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr std::size_t rows_looked_at = 30;

/// A heading without the currency in it.
struct HeadingText {
    std::string text, currency;
};

HeadingText split_heading(const std::string& cell, const ListRules& rules) {
    HeadingText heading;
    std::string word;
    const auto end_word = [&] {
        if (rules.currencies.contains(word) || word == "€")
            heading.currency = word == "€" ? "EUR" : word;
        else if (!word.empty())
            heading.text += (heading.text.empty() ? "" : " ") + word;
        word.clear();
    };
    for (const char c : clean_text(cell)) {
        if (std::string_view(" ()[]/:%#").find(c) == std::string_view::npos)
            word += c;
        else
            end_word();
    }
    end_word();
    return heading;
}

bool same_heading(const std::string& cell, const std::string& wanted) {
    return clean_text(cell) == clean_text(wanted) || squeeze(cell).text == squeeze(wanted).text;
}

/// Columns of the row that bear the heading: letter for letter, else as squeezed.
std::vector<std::size_t> columns_of(const ListCells& row, const std::string& heading) {
    std::vector<std::size_t> exact, like;
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (clean_text(row[i]).empty()) continue;
        if (clean_text(row[i]) == clean_text(heading)) exact.push_back(i);
        if (same_heading(row[i], heading)) like.push_back(i);
    }
    return exact.empty() ? like : exact;
}

std::string meaning_of(const std::string& cell, const ListRules& rules) {
    const std::string text = squeeze(split_heading(cell, rules).text).text;
    if (text.empty()) return {};
    for (const ListSpelling& each : rules.spellings)
        if (is_list_meaning(each.meaning) && each.meaning != "description" &&
            squeeze(each.text).text == text)
            return each.meaning;
    return {};
}

std::size_t best_row(const std::vector<ListCells>& rows, const auto& count) {
    std::size_t best = 0, most = 0;
    for (std::size_t i = 0; i < std::min(rows.size(), rows_looked_at); ++i) {
        const std::size_t found = count(rows[i]);
        if (found <= most) continue;
        most = found;
        best = i;
    }
    return best;
}

[[noreturn]] void refuse_missing(const std::string& name, const ListCells& row,
                                 const std::string& heading) {
    std::vector<std::string> there;
    for (const std::string& cell : row)
        if (!clean_text(cell).empty()) there.push_back(clean_text(cell));
    const auto nearest = nearest_word(heading, there);
    throw BadInput(name + ": has no column '" + heading + "' that the map names; " +
                   (nearest.empty() ? "expected it among the headings in the first 30 rows"
                                    : "nearest: " + nearest));
}

/// The meanings of a row's columns as the map names them.
std::vector<std::string> mapped(const std::string& name, const ListCells& row,
                                const PriceMap& map) {
    std::vector<std::string> meanings(row.size());
    for (const ListColumn& column : map.columns) {
        const auto found = columns_of(row, column.heading);
        if (found.empty()) refuse_missing(name, row, column.heading);
        if (found.size() > 1)
            throw BadInput(name + ": the heading '" + column.heading +
                           "' stands over more than one column; expected it once");
        if (!meanings[found[0]].empty())
            throw BadInput(name + ": '" + column.heading +
                           "' and another heading of the map name "
                           "the same column; expected one of them");
        meanings[found[0]] = column.meaning;
    }
    return meanings;
}

void check_meanings(const std::string& name, const ListHeading& heading, bool guessed) {
    const std::string map = guessed ? "; expected a map that says which (--map)" : "";
    for (std::size_t i = 0; i < heading.used.size(); ++i)
        for (std::size_t k = 0; k < i; ++k)
            if (heading.used[i].meaning == heading.used[k].meaning)
                throw BadInput(name + ": columns '" + heading.used[k].heading + "' and '" +
                               heading.used[i].heading + "' both hold " + heading.used[i].meaning +
                               (guessed ? map : "; expected one"));
    if (heading.find("list") && heading.find("net"))
        throw BadInput(name + ": has a list price and a net price" +
                       (guessed ? map : "; expected one of the two"));
    if (heading.find("net") && heading.find("discount_percent"))
        throw BadInput(name + ": has a net price and a discount" +
                       (guessed ? map : "; expected one of the two"));
    if (!heading.find("part"))
        throw BadInput(name + ": no heading in the first 30 rows names the keys of parts" +
                       (guessed ? map : "; expected a column of meaning part"));
    if (!heading.find("list") && !heading.find("net"))
        throw BadInput(name + ": no heading beside '" + heading.used[0].heading +
                       "' names a price" +
                       (guessed ? map : "; expected a column of meaning list or net"));
}

} // namespace

std::optional<std::size_t> ListHeading::find(std::string_view meaning) const {
    const auto found = std::find(meanings.begin(), meanings.end(), meaning);
    if (found == meanings.end()) return std::nullopt;
    return static_cast<std::size_t>(found - meanings.begin());
}

ListHeading find_list_heading(const std::string& name, const std::vector<ListCells>& rows,
                              const PriceMap& map, const ListRules& rules) {
    if (rows.empty()) throw BadInput(name + ": is empty; expected headings and prices");
    const bool guessed = map.columns.empty();
    ListHeading heading;
    heading.row = best_row(rows, [&](const ListCells& row) -> std::size_t {
        const auto known = [&](const std::string& cell) {
            return !meaning_of(cell, rules).empty();
        };
        const auto there = [&](const ListColumn& each) {
            return !columns_of(row, each.heading).empty();
        };
        return static_cast<std::size_t>(
            guessed ? std::count_if(row.begin(), row.end(), known)
                    : std::count_if(map.columns.begin(), map.columns.end(), there));
    });
    const ListCells& row = rows[heading.row];
    if (guessed)
        for (const std::string& cell : row) heading.meanings.push_back(meaning_of(cell, rules));
    else
        heading.meanings = mapped(name, row, map);
    for (std::size_t i = 0; i < row.size(); ++i) {
        heading.currency.push_back(split_heading(row[i], rules).currency);
        if (!heading.meanings[i].empty())
            heading.used.push_back({clean_text(row[i]), heading.meanings[i]});
        else if (!clean_text(row[i]).empty())
            heading.unused.push_back(clean_text(row[i]));
    }
    check_meanings(name, heading, guessed);
    return heading;
}

} // namespace backplate
