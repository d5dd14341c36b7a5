#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// A cell of a list with its place.
struct PlacedText {
    int row = 0;
    std::string text;
};

/// An amount as it stands in a list: its figures with their marks, and the currency beside them.
struct AmountText {
    std::string figures;  ///< "1.250,00"; empty: the cell holds none
    std::string currency; ///< "EUR", or the sign where it stands for several; empty: none
};

/// Parts the figures of a cell from the currency before or behind them; nothing where something
/// else stands beside the figures. "on request" gives no figures, no currency.
std::optional<AmountText> split_amount(std::string_view cell);

/// The decimal mark of a list, '.' or ',', from all its amounts: the last mark of two, a single one
/// with other than three figures behind it, or with a 0 before it; a mark that stands twice parts
/// thousands. '.' where no amount has a mark. Throws BadInput naming `name` and the rows where they
/// disagree, or where nothing tells ("1.250").
char find_decimal_mark(const std::string& name, const std::vector<PlacedText>& amounts);

/// The figures with a decimal point and no thousands marks (point, comma, blank, apostrophe, in
/// groups of three): "1.250,00" with ',' gives "1250.00". Nothing where they are no such number.
std::optional<std::string> plain_number(std::string_view figures, char decimal);

/// Whether day or month comes first in dates with strokes or points, from all dates of a list.
/// Points: the day (common practice). Throws BadInput where nothing tells or the rows disagree.
bool find_day_first(const std::string& name, const std::vector<PlacedText>& dates);

/// "2026-11-24" of 2026-11-24, 20261124, 24.11.2026, 24/11/2026 or 11/24/2026 (years in four
/// figures, a time of day behind it left out). Nothing where the text is no existing day.
std::optional<std::string> plain_date(std::string_view cell, bool day_first);

/// A key for comparing: capitals, without blanks and hyphens of any kind.
std::string folded_key(std::string_view key);

} // namespace backplate
