#pragma once

#include <string>
#include <vector>

#include <wx/scrolwin.h>

#include "app/desk/price_text.h"

namespace backplate {

/// Where further points of a signal cost more than a channel: for each signal of the box in view a
/// line of the further points that were tried, with a mark at each step and what it costs.
class StepsView : public wxScrolledWindow {
public:
    explicit StepsView(wxWindow* parent);

    /// `waiting`: said instead where there is nothing to draw.
    void show(const FoundSteps* steps, const std::string& box, const FigureText& text, int digits,
              const std::string& waiting);
    const std::vector<std::string>& words() const { return words_; }

private:
    struct Mark {
        int points = 0;
        wxString amount;
    };
    struct Line {
        wxString signal, note;
        int looked_at = 1, free_points = 0;
        std::vector<Mark> marks;
    };
    void add_line(const PriceSteps& steps, const FigureText& text, int digits);
    void paint(wxDC& dc) const;
    void paint_line(wxDC& dc, const Line& line, int y, int width) const;

    std::vector<Line> lines_;
    std::vector<std::string> words_;
    wxString waiting_;
};

} // namespace backplate
