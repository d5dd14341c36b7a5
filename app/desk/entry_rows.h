#pragma once

#include <span>
#include <string>
#include <vector>

#include "app/desk/desk_state.h"

namespace backplate {

/// One column of a list in the request: a key of its rows.
struct EntryColumn {
    enum class Kind { text, number, word, signal, flag, money, spare };
    const char* key = "";
    const char* title = "";
    int width = 0; ///< device-independent pixels
    Kind kind = Kind::text;
    const char* words = ""; ///< key of the allowed words, or empty

    bool right() const {
        return kind == Kind::number || kind == Kind::money || kind == Kind::spare;
    }
};

/// A list that a grid shows: the rows at `pointer` of the box in view. Where it has one column
/// without a key, the rows are plain texts.
struct EntryList {
    const char* name = "";    ///< of the grid
    const char* label = "";   ///< as a screen reader says it
    const char* pointer = ""; ///< below the box
    std::span<const EntryColumn> columns;
};

using CellTexts = std::vector<std::vector<std::string>>;

/// The rows of such a list. The request is the only store; a cell that it does not hold shows the
/// value taken. What the check of the request refuses is not stored; `DeskState::refused` says it.
class EntryRows {
public:
    EntryRows(DeskState& state, const EntryList& list) : state_(state), list_(list) {}

    const EntryList& list() const { return list_; }
    int row_count() const;
    std::string text(int row, int column) const;
    bool given(int row, int column) const { return cell(row, column) != nullptr; }
    /// A value of the row was copied from another job and waits to be confirmed.
    bool waits(int row) const;
    /// Where a cell stands in the request.
    std::string pointer(int row, int column) const;

    /// Writes cells from the upper left corner on; rows are added as needed. One step back.
    void write(int row, int column, const CellTexts& cells);
    /// The same with cells of a spreadsheet: blank rows are passed over; a first row that holds
    /// headings of this list, or words for them, says which column is which.
    void paste(int row, int column, CellTexts cells);
    void remove_rows(int first, int count);
    /// The titles of the columns.
    std::vector<std::string> titles() const;

private:
    struct Place {
        int row = 0;
        std::size_t column = 0;
    };
    std::string rows_pointer() const { return state_.box_pointer() + list_.pointer; }
    const Node* cell(int row, int column) const;
    const Node* taken_cell(int row, int column) const;
    std::vector<std::size_t> columns_of(const std::vector<std::string>& heading) const;
    void put(Node& request, Place place, const std::string& text) const;
    void put_value(Node& request, Place place, std::optional<Node> value) const;
    void put_spare(Node& request, int row, const std::optional<Node>& percent) const;
    void put_signal(Node& request, Place place, const std::string& text) const;
    std::optional<Node> typed(std::size_t column, const std::string& text) const;
    std::string refuse(Node& request, const std::vector<Place>& places) const;
    void drop_empty_rows(Node& request) const;
    std::string reason(Place place, const Node& request, const std::string& fault) const;
    void write_places(const std::vector<Place>& places, const std::vector<std::string>& texts);
    void store(Node request, std::string refused);

    DeskState& state_;
    const EntryList& list_;
};

} // namespace backplate
