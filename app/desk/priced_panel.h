#pragma once

#include <functional>
#include <string>

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/figure_lines.h"
#include "app/desk/row_list.h"

class wxNotebook;
class wxStaticText;

namespace backplate {

class FigureText;
class ListsPage;
class PriceBar;
class StepsView;
class WrappedText;

/// The right column: what it costs, what else it could be, and where further points cost more.
class PricedPanel : public wxPanel {
public:
    PricedPanel(wxWindow* parent, DeskState& state);

    void show();
    void focus_first() { alternatives_->SetFocus(); }
    std::string price_text() const;
    std::string notes_text() const;
    const RowList& alternatives() const { return *alternatives_; }
    const std::vector<std::string>& step_words() const;
    int flashes() const { return flash_->started(); }
    /// Takes an alternative, counted from 0: one step back.
    void take(std::size_t number);

private:
    void make_head(wxSizer* rows);
    void make_book(wxSizer* rows);
    void add_page(const char* title, const std::function<void(ListsPage*)>& fill);
    void add_figure_pages();
    void bind_lists();
    void show_price(const Estimate* estimate);
    void show_lists(const Estimate* estimate, const FigureText& text);
    void show_alternatives(const FigureText& text);
    void show_steps(const FigureText& text);
    void explain_alternative(long row);
    void note_change();

    DeskState& state_;
    wxStaticText *price_ = nullptr, *notes_ = nullptr, *change_ = nullptr, *even_ = nullptr,
                 *enough_ = nullptr;
    WrappedText* alternative_ = nullptr;
    PriceBar* bar_ = nullptr;
    wxNotebook* book_ = nullptr;
    RowList *alternatives_ = nullptr, *build_up_ = nullptr, *classes_ = nullptr, *labour_ = nullptr,
            *ratios_ = nullptr;
    StepsView* steps_ = nullptr;
    FigureLines* lines_ = nullptr;
    std::shared_ptr<const Answer> shown_; ///< whose price is in view
    std::string changed_;                 ///< of it to the one before
    bool compared_ = false;               ///< the figures in view follow others of the same bid
    std::unique_ptr<Flash> flash_;
};

} // namespace backplate
