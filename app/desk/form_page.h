#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include <wx/scrolwin.h>

#include "app/desk/entry_grid.h"
#include "app/desk/field.h"

namespace backplate {

/// Fields under a heading of their own.
struct FieldGroup {
    const char* title = ""; ///< empty: none
    std::span<const FieldSpec> fields;
};

/// A page of the asked column: groups of fields two abreast, then lists, that scrolls where it is
/// higher than the window.
class FormPage : public wxScrolledWindow {
public:
    FormPage(wxWindow* parent, DeskState& state);

    void add_group(const FieldGroup& group);
    /// `share`: of the height that is left; at least `rows` rows are in view.
    EntryGrid& add_list(const EntryList& list, const char* title, int share, int rows);
    void add(wxSizer* sizer);

    void show();
    void finish_edit();
    /// The field nearest to a pointer and how many characters of it they share; null: none.
    Field* nearest(const std::string& pointer, std::size_t& shared) const;
    bool go_to_list(const std::string& pointer);
    void focus_first();
    std::string pointer_in_focus() const; ///< empty: none of its entries has the cursor
    std::string value_in_focus() const;   ///< the same, of a list the cell with the cursor

private:
    std::string in_focus(std::string (EntryGrid::*of_list)() const) const;

    DeskState& state_;
    wxBoxSizer* rows_;
    std::vector<std::unique_ptr<Field>> fields_;
    std::vector<EntryGrid*> lists_;
};

} // namespace backplate
