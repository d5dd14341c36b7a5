#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/answer_text.h"
#include "app/list_take_off.h"

namespace backplate {

/// A row of a list beside what became of it.
struct PreviewRow {
    int number = 0;
    std::optional<RowOutcome::Is> is; ///< nothing: heading, title, blank
    std::string reason;               ///< in words
    const Cells* cells = nullptr;
};

/// A sheet of a list as the take-off page shows it.
struct Preview {
    std::vector<std::string> titles; ///< of the columns: letter and what it was taken for
    std::vector<PreviewRow> rows;
};

Preview preview_of(const TakenList& list, const ListSheet& sheet, const RuleBook& rules,
                   const TableChoice& choice);

/// The sign and the word of an outcome: "✓ counted", "? asked".
std::string outcome_sign(const std::optional<RowOutcome::Is>& is);

/// Open questions that one answer settles: those of a reason about one type text.
struct QuestionGroup {
    std::string reason, type, sheet;
    std::vector<int> rows; ///< none: the sheet or the file
    std::string words;     ///< what is asked
    std::string proposal;  ///< in words; empty: the user must choose
    std::string last_time;
    /// The answer to it that does so.
    ListAnswer answer(ListAnswer::Does does) const;
};
std::vector<QuestionGroup> question_groups(const Takeoff& takeoff);
/// rows, question, proposal
TextRows question_rows(const std::vector<QuestionGroup>& groups);

/// panel, signal, points now, points if every proposal is accepted; the sum last
TextRows count_rows(const Takeoff& takeoff);
/// "92 rows: 80 counted, 6 not counted, 4 asked, 2 refused", and what speaks for caution.
std::string outcome_words(const Takeoff& takeoff);
/// How the file was read and where its headings stand.
std::string reading_words(const TakenList& list);

/// "DI", "2 DI, 1 DO" as counts; nothing where a word is no signal.
std::optional<SignalCounts> typed_counts(const std::string& text, const RuleBook& rules);

/// "A", "B" … "AA" as in a spreadsheet.
std::string column_letters(std::size_t column);

} // namespace backplate
