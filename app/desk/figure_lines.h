#pragma once

#include <functional>
#include <string>
#include <vector>

#include <wx/panel.h>

class wxStaticText;

namespace backplate {

/// What one line of the answer says: a figure and what it rests on.
struct FigureLine {
    std::string figure, detail;
};

/// Lines with a label each: the figure beside it, its detail in grey below, and a key that asks
/// why.
class FigureLines : public wxPanel {
public:
    struct Label {
        const char* name;
        const char* text;
    };
    /// `why` is called with the number of the line, from 0.
    FigureLines(wxWindow* parent, const std::vector<Label>& labels,
                std::function<void(std::size_t)> why);

    /// One line per label, in their order.
    void set_lines(const std::vector<FigureLine>& lines);
    void set_stale(bool stale);

private:
    struct Texts {
        wxStaticText* figure;
        wxStaticText* detail;
    };
    wxWindow* make_why(const Label& label, std::size_t line);

    std::function<void(std::size_t)> why_;
    std::vector<Texts> texts_;
};

} // namespace backplate
