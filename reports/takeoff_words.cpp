#include "reports/takeoff_words.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace backplate {
namespace {

struct Phrase {
    std::string_view word, text;
};

constexpr auto reasons =
    std::array{Phrase{"ai_range_missing", "analogue input without its range"},
               Phrase{"ao_range_missing", "analogue output without its range"},
               Phrase{"type_blank", "the type is blank"},
               Phrase{"type_unknown", "the type is a word the spellings do not hold"},
               Phrase{"io_unspecific", "the type does not say which inputs or outputs"},
               Phrase{"contradiction", "type and electrics do not go together"},
               Phrase{"do_mains", "mains output without the word relay"},
               Phrase{"load_cell", "load cell: bridge input or a transmitter?"},
               Phrase{"dual_channel", "two safety channels or one?"},
               Phrase{"tag_range", "one row for a range of tags"},
               Phrase{"qty_vs_range", "quantity and range of tags differ"},
               Phrase{"exact_duplicate", "entirely equal to a row above"},
               Phrase{"soft_suspect", "a wired type, but memory or not wired"},
               Phrase{"fill_down_panel", "counted, but without the panel that a row above has"},
               Phrase{"hold", "on hold"},
               Phrase{"future", "for the future"},
               Phrase{"by_others", "by others"},
               Phrase{"qty_not_integer", "the quantity is no whole number from 0 to 100000"},
               Phrase{"qty_negative", "the quantity is negative"},
               Phrase{"qty_zero", "the quantity is zero"},
               Phrase{"error_cell_qty", "the quantity is an error value"},
               Phrase{"error_cell_type", "the type is an error value"},
               Phrase{"error_cell_text", "an error value in the row"},
               Phrase{"too_many_fields", "more fields than the heading"},
               Phrase{"short_row", "fewer fields than the heading"},
               Phrase{"deleted", "marked as deleted, not counted"},
               Phrase{"dup_tag", "the tag stands above with the same signal"},
               Phrase{"tag_is_date", "the tag looks like a date"},
               Phrase{"tag_is_number", "the tag looks like a number a spreadsheet made"},
               Phrase{"tag_two_signals", "one tag for two signals"},
               Phrase{"sheet_copy", "the same list as another sheet"},
               Phrase{"hidden_row", "hidden by hand"},
               Phrase{"hidden_sheet", "a hidden sheet that looks like a list"},
               Phrase{"struck_out", "struck through"},
               Phrase{"no_header", "no heading was found"},
               Phrase{"wrong_extension", "the name says workbook, the content is text"},
               Phrase{"formula_no_value", "a formula without a stored value"},
               Phrase{"cell_too_long", "a cell of more than 32767 characters"},
               Phrase{"too_many_points", "more than 1000000 points in the list"},
               Phrase{"red_fill", "on red; colours are not read"},
               Phrase{"header", "headings"},
               Phrase{"title", "above the heading"},
               Phrase{"section", "section titles"},
               Phrase{"blank", "blank"},
               Phrase{"note", "notes and legend"},
               Phrase{"total", "totals"},
               Phrase{"spare", "spare, listed by signal"},
               Phrase{"soft", "software points"},
               Phrase{"bus", "on a bus"},
               Phrase{"noio", "not wired"},
               Phrase{"del", "deleted"},
               Phrase{"zero", "none of it"},
               Phrase{"answered", "left out by an answer"}};

} // namespace

std::string takeoff_reason(const std::string& reason) {
    const auto found = std::ranges::find(reasons, reason, &Phrase::word);
    return found == reasons.end() ? reason : std::string(found->text);
}

} // namespace backplate
