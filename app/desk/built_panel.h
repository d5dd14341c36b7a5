#pragma once

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/figure_lines.h"
#include "app/desk/row_list.h"

class wxNotebook;
class wxStaticText;

namespace backplate {

class DrawingView;
class PanelPage;
class ReplaceWindow;

/// The middle column: what must be built for the box in view.
class BuiltPanel : public wxPanel {
public:
    BuiltPanel(wxWindow* parent, DeskState& state);

    void show();
    void focus_first();
    const RowList& modules() const { return *modules_; }
    const DrawingView& drawing() const;
    const ReplaceWindow* replacing() const { return replace_; } ///< null: never asked

private:
    void make_book(wxSizer* rows);
    RowList* add_list(const char* title, const char* name, const char* label,
                      std::vector<ListColumn> columns);
    void make_panel_page();
    template <class Lines>
    std::string line_pointer(const char* pointer, const Lines& lines, long row) const;
    std::string words_of(const PlacedDevice& device) const;
    void make_lines(wxSizer* rows);
    void show_box(const Estimate& estimate, const BoxResult& box);
    void show_nothing();
    void ask_why(std::size_t line) const;
    std::string part_of(std::size_t device) const;
    void offer_choices(std::size_t device);
    void replace(const std::string& part);
    void note_choice(const std::string& part, bool keep);

    DeskState& state_;
    wxStaticText *system_ = nullptr, *proof_ = nullptr;
    wxNotebook* book_ = nullptr;
    PanelPage* panel_ = nullptr;
    RowList *modules_ = nullptr, *points_ = nullptr, *bill_ = nullptr;
    FigureLines* lines_ = nullptr;
    std::string shown_box_; ///< whose figures are in view; empty: none
    ReplaceWindow* replace_ = nullptr;
};

} // namespace backplate
