#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include <wx/panel.h>

#include "app/desk/flash.h"

class wxSizer;
class wxStaticText;

namespace backplate {

/// What one line of the answer says: a figure and what it rests on.
struct FigureLine {
    std::string figure, detail;
};

/// Lines with a label each: the figure beside it, a key that asks why, and below both the detail in
/// grey, in as many lines as it needs.
class FigureLines : public wxPanel {
public:
    struct Label {
        const char* name;
        const char* text;
    };
    /// `why` is called with the number of the line, from 0.
    FigureLines(wxWindow* parent, const std::vector<Label>& labels,
                std::function<void(std::size_t)> why);

    /// One line per label, in their order. A figure that differs from the one before flashes where
    /// `flash` is set; what it was before is said of it in words.
    void set_lines(const std::vector<FigureLine>& lines, bool flash = false);
    void set_stale(bool stale);

private:
    struct Texts {
        wxStaticText* figure;
        wxStaticText* detail;
        std::unique_ptr<Flash> flash;
        std::string words; ///< of the detail, not wrapped
    };
    static void set_figure(const Texts& line, const std::string& figure, bool flash);
    void add_line(wxSizer& rows, const Label& label, int label_width);
    void wrap_details();
    wxWindow* make_why(const Label& label, std::size_t line);

    std::function<void(std::size_t)> why_;
    std::vector<Texts> texts_;
    int wrapped_at_ = -1; ///< width of the panel that the details are wrapped for
};

} // namespace backplate
