#pragma once

#include <string>
#include <vector>

#include <wx/panel.h>

#include "app/desk/box_bar.h"
#include "app/desk/form_page.h"

class wxNotebook;
class wxStaticText;

namespace backplate {

/// The left column: what the enquiry asks, on pages; the box in view above them.
class AskedPanel : public wxPanel {
public:
    AskedPanel(wxWindow* parent, DeskState& state);

    void show();
    EntryGrid& points() { return *points_; }
    BoxBar& boxes() { return *boxes_; }
    /// Takes over what stands in open cell editors.
    void finish_edit();
    /// Turns to a page, counted from 0, and puts the cursor into its first field.
    void turn_to(std::size_t page);
    std::size_t page_in_view() const;
    /// Where the field or row with the cursor stands in the request; empty: none has it.
    std::string pointer_in_focus() const;
    /// The same, of a row the cell with the cursor.
    std::string value_in_focus() const;
    /// Puts the cursor into the field that a JSON pointer of the request names, or into the
    /// nearest around or inside it; false where the window has none.
    bool focus(const std::string& pointer);

private:
    FormPage* add_page(const char* title);
    void make_pages();
    void add_point_keys(FormPage& page);
    void show_refused();

    DeskState& state_;
    BoxBar* boxes_ = nullptr;
    wxNotebook* book_ = nullptr;
    std::vector<FormPage*> pages_;
    EntryGrid* points_ = nullptr;
    wxStaticText* refused_ = nullptr;
};

} // namespace backplate
