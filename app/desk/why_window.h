#pragma once

#include <string>
#include <vector>

#include "app/desk/row_list.h"
#include "app/desk/side_window.h"

class wxStaticText;
class wxTextCtrl;

namespace backplate {

/// How figures came about: the figures below a pointer; of the one chosen its formula, inputs, rule
/// row and source. Return on an input leads on to it, Escape closes.
class WhyWindow : public SideWindow {
public:
    WhyWindow(wxWindow* parent, DeskState& state);

    void ask(const std::string& pointer);
    /// Where a value of the request comes from: what was stated, and the row of its default.
    void ask_value(const std::string& pointer);
    std::string formula_text() const;

private:
    void make_lists();
    void show_inputs(bool shown);
    void show_rule(const std::string& rule, const std::string& source);
    void show_entry(std::size_t number);
    void follow(long input);

    std::shared_ptr<const Answer> answer_; ///< whose figures are in view
    std::vector<const BasisEntry*> entries_;
    const BasisEntry* entry_ = nullptr;
    RowList *figures_ = nullptr, *inputs_ = nullptr, *rule_ = nullptr;
    wxTextCtrl* formula_ = nullptr;
    wxStaticText* source_ = nullptr;
};

} // namespace backplate
