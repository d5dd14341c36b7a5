#pragma once

#include <array>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "pricing/takeoff/lexicon.h"
#include "pricing/takeoff/list_answers.h"
#include "pricing/takeoff/list_sheet.h"

namespace backplate {

/// What a column holds; the words of the headings table in this order.
enum class Role { tag, description, type, electrics, panel, remarks, address, quantity, device };
inline constexpr std::array<std::string_view, 9> role_words{
    "tag", "description", "type", "electrics", "panel", "remarks", "address", "quantity", "device"};

/// A column of a list that has one column per kind of point.
struct KindColumn {
    std::size_t column = 0;
    std::string heading; ///< as a person reads it: "AI (4-20 mA)"
    std::string title;   ///< without what stands in brackets: "AI"
    std::string kind;    ///< DI, DO, AI, AO, RTD … or soft
};

/// The heading of a table: its rows and which columns hold what.
struct Heading {
    std::size_t row = 0;          ///< index of the first heading row
    std::size_t last_row = 0;     ///< of two: the row below, else the same
    std::size_t first_column = 0; ///< of the table
    std::size_t end_column = 0;   ///< behind its last column with a heading
    std::array<std::vector<std::size_t>, role_words.size()> columns;
    std::vector<KindColumn> kinds; ///< none: one row per point
    std::string group;             ///< of tables side by side: what stands above this one
    bool headless = false;         ///< told to have no heading; the table begins with row 1
    bool of_one_kind = false;      ///< the name of the sheet says the kind of its points

    bool has(Role role) const { return !columns[static_cast<std::size_t>(role)].empty(); }
    bool is_matrix() const { return !kinds.empty(); }
    /// Counts per box instead of points.
    bool is_summary() const {
        return is_matrix() && has(Role::panel) && !has(Role::tag) && !has(Role::description);
    }
    /// The cleaned texts of the role's columns in a row, joined by a blank.
    std::string text(const Cells& row_cells, Role role) const;
};

/// The words by which headings are known.
class HeadingWords {
public:
    HeadingWords(const std::vector<Spelling>& headings, const Lexicon& lexicon);

    struct Word {
        std::size_t role = 0; ///< role_words.size(): a column to pass over
        Squeezed text;
    };
    const std::vector<Word>& words() const { return words_; }
    const Lexicon& lexicon() const { return lexicon_; }
    /// Whether the whole text is a heading of a type or of electrics.
    bool is_kind_heading(const std::string& text) const;
    /// The kind whose word the text is, alone or with a range behind it: "DI", "AI 4-20 mA",
    /// "digital inputs"; empty where it is none.
    std::string kind_of(const Squeezed& text) const;

private:
    std::vector<Word> words_;
    std::set<std::string> kind_headings_; ///< squeezed
    const Lexicon& lexicon_;
};

/// Among the first 30 rows the one with most roles, whole headings before part ones; the first of
/// equals, and none below rows of points. It must name at least two roles, one of them the type,
/// the electrics or the address; or two kinds of points and a tag, a description or a panel; or,
/// where the name of the sheet says the kind, a tag and one more. A cell is matched whole, else by
/// the longest spelling within it;
/// "(…)" is left out. Where a role has whole matches, part ones do not count; of several columns
/// tag, type, panel, address, quantity and device take the one whose spelling stands first in the
/// table, the other roles take all. A list whose only column of kind is the electrics reads the
/// type from it. A row below that names roles but neither a tag nor a description is a second
/// heading row, whose whole matches win over those above them. Tables side by side, known by
/// headings that come again, have one heading each. Columns chosen by hand come before all words.
/// None: the sheet is no list.
std::vector<Heading> find_headings(const ListSheet& sheet, const HeadingWords& words,
                                   const TableChoice& choice);

/// The heading that a row in the table is, where it is one: at least three whole matches.
std::optional<Heading> heading_again(const ListSheet& sheet, std::size_t row,
                                     const HeadingWords& words);

} // namespace backplate
