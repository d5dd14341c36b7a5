#pragma once

#include <optional>
#include <string>

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/figure_lines.h"
#include "app/desk/row_list.h"

class wxStaticText;

namespace backplate {

/// The right column: what it costs.
class PricedPanel : public wxPanel {
public:
    PricedPanel(wxWindow* parent, DeskState& state);

    void show();
    std::string price_text() const;
    std::string notes_text() const;

private:
    void show_price(const Estimate* estimate);
    std::string difference();

    DeskState& state_;
    wxStaticText* price_ = nullptr;
    wxStaticText* notes_ = nullptr;
    wxStaticText* hours_ = nullptr;
    RowList* build_up_ = nullptr;
    RowList* labour_ = nullptr;
    FigureLines* lines_ = nullptr;
    std::shared_ptr<const Answer> shown_; ///< whose price is in view
    std::string difference_;              ///< of it to the one before
};

} // namespace backplate
