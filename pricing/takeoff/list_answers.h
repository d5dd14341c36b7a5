#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace backplate {

using SignalCounts = std::map<std::string, int>;

/// What the columns of a table hold, chosen by hand.
struct ColumnChoice {
    std::string column; ///< a heading of the list, or letters as in a spreadsheet: "column C"
    std::string role;   ///< a word of the roles, or "ignore"
};

struct TableChoice {
    std::optional<int> heading_row; ///< row number; 0: the table has no heading
    std::vector<ColumnChoice> columns;

    bool chosen() const { return heading_row || !columns.empty(); }
};

/// The answer to a question of the take-off, for one row, for all rows of a type text, or for all
/// rows of a reason.
struct ListAnswer {
    enum class Does { accept, leave_out, count, signals, panel };
    std::string reason;     ///< of a question; "any": of every one
    std::string sheet;      ///< empty: any
    std::optional<int> row; ///< nothing: any
    std::string type;       ///< type text as a person reads it; empty: any
    Does does = Does::accept;
    SignalCounts signals; ///< of the whole row where a row is named, else of each piece
    std::string panel;

    friend bool operator==(const ListAnswer&, const ListAnswer&) = default;
};

/// An answer as a person reads it: "the proposal", "not counted", "counted", "DI 1", "panel CP1".
std::string answer_text(const ListAnswer& answer);

/// What a row is after the answer: its signals, none where it is left out; nothing where it stays
/// open. `signals`: what counting it as it stands gives, none where that is not known.
std::optional<SignalCounts> settled_by(const ListAnswer* answer,
                                       const std::optional<SignalCounts>& proposal,
                                       const SignalCounts& signals, int pieces);

/// How a list is to be read: what the user decided.
struct ListAnswers {
    std::string encoding, delimiter; ///< of text; empty: found out
    TableChoice table;
    std::vector<ListAnswer> answers;

    /// The answer that fits best: a row before a type, a type before all rows of the reason.
    const ListAnswer* find(const std::string& reason, const std::string& sheet, int row,
                           const std::string& type) const;
};

} // namespace backplate
