#pragma once

#include <vector>

#include <wx/panel.h>

#include "app/desk/price_text.h"

namespace backplate {

/// What the price is made of, as a bar with its legend. Colours keep apart for colour-blind eyes;
/// every share is named with its amount and part in words beside them.
class PriceBar : public wxPanel {
public:
    explicit PriceBar(wxWindow* parent);

    void show(std::vector<PriceShare> shares, const FigureText& text, int digits);

private:
    void paint(wxDC& dc) const;
    void paint_bar(wxDC& dc, int width) const;
    void paint_legend(wxDC& dc, int width) const;

    std::vector<PriceShare> shares_;
    std::vector<wxString> amounts_;
    double sum_ = 0;
};

} // namespace backplate
