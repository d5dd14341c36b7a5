#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/takeoff/classify.h"
#include "pricing/takeoff/headings.h"

namespace backplate {

/// One wired point as the list names it. A row with a quantity gives as many of them.
struct TakenPoint {
    int row = 0; ///< row number of the list
    std::string panel, signal, tag, text;
    std::string wiring; ///< only where the list says so and the signal allows it
    std::string volts;  ///< only of mains signals, a decimal as written
    bool hart = false;
};

/// What the user must decide; the row is not counted until then.
struct OpenQuestion {
    int row = 0;
    std::string reason, panel;
    std::optional<SignalCounts> proposal; ///< nothing: the user must choose
    std::string proposed_panel;           ///< of fill_down_panel, whose points are counted
};

struct RowRemark {
    int row = 0;
    std::string reason;
};

/// A total of the list that no sum of the take-off gives.
struct TotalMismatch {
    int row = 0, stated = 0, counted = 0;
};

using PanelCounts = std::map<std::string, SignalCounts>;

/// What a list holds, with every row accounted for.
struct Takeoff {
    std::optional<int> header_row; ///< nothing: no heading was found, nothing is read
    std::vector<TakenPoint> points;
    int rows_counted = 0;
    SignalCounts spare_rows;
    std::map<std::string, int> bus_rows, rows_not_counted;
    std::vector<OpenQuestion> ask;
    std::vector<RowRemark> refuse_rows, warn;
    std::vector<TotalMismatch> total_mismatches;

    SignalCounts counts() const;
    PanelCounts panels() const;
    SignalCounts counts_if_accepted() const;
    PanelCounts panels_if_accepted() const;
    bool has_questions() const { return !ask.empty() || !refuse_rows.empty(); }
};

/// Reads the cells of one list with the headings and spellings of the rules. `row_numbers` gives
/// the number of every row. Every row is counted, asked, refused or counted as not counted.
Takeoff take_off(const std::vector<Cells>& rows, const std::vector<int>& row_numbers,
                 const RuleBook& rules);

} // namespace backplate
