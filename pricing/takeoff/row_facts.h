#pragma once

#include <optional>
#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/takeoff/lexicon.h"
#include "pricing/takeoff/list_sheet.h"

namespace backplate {

/// What the quantity cell of a row says.
struct Quantity {
    int pieces = 1;
    bool stated = false; ///< a blank cell or a filler means one
    std::string refusal; ///< qty_not_integer, qty_negative, error_cell_qty; empty: fine
};

/// Whole numbers from 0 to 100 000, "2,0" and "4 off" among them.
Quantity read_quantity(const std::string& cell, const Lexicon& lexicon);

/// Whether a number with a decimal comma stands in the text: "-50,0…250,0 °C".
bool has_decimal_comma(const std::string& text);

/// The value a spreadsheet leaves where a formula fails, "#REF!" or "#DIV/0!".
bool is_error_cell(const std::string& cell);

/// The wiring that the texts of a row name: exactly one, and one that the words table allows for
/// the signal; else empty.
std::string wiring_said(const Squeezed& texts, const std::string& signal, const Lexicon& lexicon,
                        const RuleBook& rules);

/// The voltage of a mains signal where exactly one is written ("230 V AC"); else empty.
std::string mains_volts(const Squeezed& texts, const Lexicon& lexicon);

/// The panel that a row above the heading names, in one cell ("Panel: CP-1") or in the next one: a
/// single word with a digit; empty where it names none.
std::string panel_of_title(const Cells& cells, const Lexicon& lexicon);

/// The panel that a section row names: what follows the word for a panel; empty where it names
/// none.
std::string panel_of_section(const std::string& text, const Lexicon& lexicon);

} // namespace backplate
