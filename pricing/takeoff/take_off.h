#pragma once

#include <map>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/takeoff/classify.h"
#include "pricing/takeoff/headings.h"
#include "pricing/takeoff/list_answers.h"
#include "pricing/takeoff/list_sheet.h"

namespace backplate {

/// Wired points of one signal as one row of the list names them.
struct TakenPoint {
    std::string sheet; ///< empty: a text file
    int row = 0;       ///< row number of the list
    std::string panel, signal, tag, text;
    std::string wiring; ///< only where the list says so and the signal allows it
    std::string volts;  ///< only of mains signals, a decimal as written
    std::string device; ///< what stands in the field, where a column names it
    bool hart = false;
    bool isolated = false;
    int count = 1;
};

/// What the user must decide; the row, or the sheet where no row is named, is not counted until
/// then.
struct OpenQuestion {
    std::string sheet;
    int row = 0; ///< 0: a whole sheet or the file
    std::string reason, panel;
    std::optional<SignalCounts> proposal; ///< nothing: the user must choose
    std::string proposed_panel;           ///< of fill_down_panel, whose points are counted
    std::string type;                     ///< what the row says about its kind
    std::string text;                     ///< of a sheet or the file: what is asked
    std::string proposed_word;            ///< of the file: what is proposed
    std::string last_time;                ///< the answer of an earlier list of the client
};

struct RowRemark {
    std::string sheet;
    int row = 0;
    std::string reason;
};

/// What became of a row of a list: one of four outcomes.
struct RowOutcome {
    enum class Is { counted, not_counted, asked, refused };
    std::string sheet;
    int row = 0;
    Is is = Is::not_counted;
    std::string reason; ///< of a counted row empty
};

/// Totals that the list states and what the take-off gives for the same.
struct TotalMismatch {
    std::string sheet;
    int row = 0;                                ///< 0: of a sheet of sums
    std::string panel;                          ///< of a sheet of sums
    std::map<std::string, int> stated, counted; ///< by kind; the key is empty for all points
};

/// The totals below a list with one column per kind.
struct TotalsCheck {
    std::map<std::string, int> stated;
    bool agree = false;
};

/// Something about the file that is no question: rows hidden by a filter, a remark.
struct FileNote {
    std::string reason, sheet, text;
    std::vector<int> rows;
};

/// A sheet that was read as a list.
struct ReadTable {
    std::string sheet;
    std::vector<int> header_rows; ///< none: told to have no heading
    int first_column = 1;         ///< from 1
    std::string layout;           ///< rows; rows, several signals per row; matrix …
    std::string panel_from;       ///< column, section, sheet name; empty: nowhere
    std::string quantity_column;
    bool merged_panel = false, decimal_comma = false;
};

using PanelCounts = std::map<std::string, SignalCounts>;

/// What a list holds, with every row accounted for.
struct Takeoff {
    std::vector<ReadTable> tables; ///< none: nothing was read as a list
    std::vector<std::string> ignored_sheets, hidden_sheets;
    std::vector<TakenPoint> points;
    std::vector<RowOutcome> rows; ///< of every row read, in the order of reading
    int rows_counted = 0;
    SignalCounts spare_rows;
    std::map<std::string, int> bus_rows, rows_not_counted;
    std::vector<OpenQuestion> ask;
    std::vector<RowRemark> refuse_rows, warn;
    std::vector<TotalMismatch> total_mismatches;
    std::vector<FileNote> notes;
    std::optional<TotalsCheck> totals_check;

    SignalCounts counts() const;
    PanelCounts panels() const;
    SignalCounts counts_if_accepted() const;
    PanelCounts panels_if_accepted() const;
    bool has_questions() const { return !ask.empty() || !refuse_rows.empty(); }
    /// Whether any row below a heading is more than a title, a note or blank.
    bool holds_rows() const;
};

/// The words of the rules by which the code page of a list is known.
std::vector<std::string> list_words(const RuleBook& rules);

/// How a take-off is to go about it.
struct TakeoffWish {
    std::string sheet; ///< read only this one; empty: all
    ListAnswers answers;
    std::stop_token stop; ///< throws Stopped
};

/// Reads the sheets of one list with the headings and spellings of the rules. Every row is
/// counted, not counted, asked or refused; the sum is asserted (std::logic_error). A file without
/// any heading, or named as a workbook without being one, is asked as a whole.
Takeoff take_off(const ListFile& file, const RuleBook& rules, const TakeoffWish& wish);

} // namespace backplate
