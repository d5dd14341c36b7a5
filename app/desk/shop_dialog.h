#pragma once

#include <optional>
#include <string>
#include <vector>

#include <wx/dialog.h>

#include "app/desk/desk_state.h"
#include "app/shop_answers.h"

class wxSizer;
class wxStaticText;
class wxTextCtrl;

namespace backplate {

/// Five questions whose answers make the norms the shop's own: two rates, hours for a point, hours
/// of the job in view, the currency. An empty answer leaves what stands beside it.
class ShopDialog : public wxDialog {
public:
    ShopDialog(wxWindow* parent, const DeskState& state);

    /// The rules that the answers give; set once Return was accepted.
    const std::optional<RuleTables>& rules() const { return rules_; }

private:
    void make_questions(wxSizer* rows);
    void make_keys(wxSizer* rows);
    wxTextCtrl* ask(wxSizer* grid, const char* name, const std::string& question,
                    const std::string& now, const std::string& unit);
    double answer(const wxTextCtrl& entry, const char* what) const;
    void accept();

    const DeskState& state_;
    KnownJob job_;
    std::optional<RuleTables> rules_;
    wxTextCtrl *rate_shop_ = nullptr, *rate_engineering_ = nullptr, *per_point_ = nullptr,
               *shop_hours_ = nullptr, *currency_ = nullptr;
    wxStaticText* fault_ = nullptr;
};

} // namespace backplate
