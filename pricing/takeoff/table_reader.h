#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "pricing/takeoff/ledger.h"
#include "pricing/takeoff/row_facts.h"
#include "pricing/takeoff/tally.h"

namespace backplate {

/// What all tables of a list are read with. Verdicts are kept, for lists repeat themselves.
class ListWords {
public:
    ListWords(const RuleBook& rules, const ListAnswers& answers);

    const Verdict& verdict(const KindTexts& texts);

    const RuleBook& rules;
    const ListAnswers& answers;
    const Lexicon lexicon;
    const HeadingWords headings;

private:
    std::unordered_map<std::string, Verdict> verdicts_;
};

/// The texts of a row by role, cleaned.
struct RowTexts {
    std::string tag, description, type, electrics, panel, remarks, address, quantity, device;

    std::string kind_and_remarks() const { return type + " " + electrics + " " + remarks; }
};

/// A row while its outcome is found.
struct RowCase {
    const ListRow& raw;
    const Cells& cells; ///< cleaned, merged ones filled
    RowTexts texts;
    Verdict verdict;
    Quantity quantity;
    Squeezed remarks;
    std::map<std::string, int> of_column; ///< of a table with a column per kind: its pieces
    std::vector<std::pair<std::string, std::string>> tags; ///< signal and tag, where cells are tags
};

/// Reads one table of a sheet row by row into the ledger.
class TableReader {
public:
    TableReader(const ListSheet& sheet, Heading heading, ListWords& words, Ledger& ledger);

    /// A row below the heading; its cells may be cut to those of the table.
    void read(const ListRow& row);
    ReadTable table() const;

private:
    // Rows that are no rows of the table.
    bool read_text_row(const ListRow& row, const Cells& cells);
    void read_only_cell(const std::string& cell);
    bool begin_again(const ListRow& row, const Cells& cells);
    bool is_total(const Cells& cells, const RowTexts& texts) const;
    bool is_total_of_kinds(const Cells& cells, const std::string& first,
                           const RowTexts& texts) const;
    void read_total(const Cells& cells, const RowTexts& texts);
    void read_kind_totals(const Cells& cells, const std::string& text);

    // Rows of points.
    void read_point_row(RowCase& row);
    void read_matrix_row(RowCase& row);
    bool refuse_flaws(const RowCase& row);
    bool take_kind_cells(RowCase& row);
    bool take_kind_cell(RowCase& row, const KindColumn& column, const std::string& cell);
    void add_kind(RowCase& row, const KindColumn& column, int pieces, const std::string& tag);
    bool leave_matrix_row_out(RowCase& row);
    bool is_mark(const std::string& cell) const;
    bool says_nothing(const RowCase& row, const KindColumn& column) const;
    bool leave_out(RowCase& row);
    void settle(RowCase& row);
    std::optional<SignalCounts> after_doubts(RowCase& row, SignalCounts signals);
    void take_points(const RowCase& row, const SignalCounts& signals);
    void add_tagged(const RowCase& row, TakenPoint point);
    std::string panel_of(const RowCase& row);

    const TallCell* tall_cell_at(std::size_t column, int row) const;
    bool is_column_of(Role role, std::size_t column) const;
    Cells filled_down(const ListRow& row, Cells cells);
    RowTexts texts_of(const Cells& cells);
    std::string panel_name(const std::string& text);
    bool is_spare(const RowCase& row) const;
    bool is_merged_quantity(const RowCase& row) const;
    std::vector<OpenQuestion> doubts_about(RowCase& row, const SignalCounts& signals);
    std::optional<OpenQuestion> doubt_about_range(const RowCase& row, const SignalCounts& signals);
    void warn_about(const RowCase& row, const SignalCounts& signals);
    bool cells_are_tags() const;
    struct ColumnWords {
        int texts = 0, known = 0, kinds = 0;
    };
    ColumnWords words_in(std::size_t column) const;
    void take_type_that_says_kinds();
    void drop_running_numbers();

    const ListSheet& sheet_;
    Heading heading_;
    ListWords& words_;
    Ledger& ledger_;
    std::vector<Cells> heading_cells_;
    std::size_t fields_; ///< of the heading row, empty ones too
    std::map<std::size_t, std::vector<TallCell>> tall_by_column_;
    Tally tally_;
    ReadTable table_;
    bool tags_in_cells_ = false, several_signals_ = false, marks_ = false, in_notes_ = false,
         merged_panel_ = false, decimal_comma_ = false, panel_by_section_ = false;
    std::string sheet_panel_, section_panel_, section_kind_, last_panel_;
    std::map<std::string, std::string> panel_names_; ///< by lower case: as first written
    std::set<std::pair<std::uint64_t, std::uint64_t>> seen_rows_;
    std::set<std::pair<std::string, SignalCounts>> seen_tags_;
};

} // namespace backplate
