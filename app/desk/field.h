#pragma once

#include <string>

#include <wx/panel.h>
#include <wx/sizer.h>

#include "app/desk/desk_state.h"

class wxStaticText;
class wxTextEntry;

namespace backplate {

/// One field of the request. `pointer` starts at the request, or at the box in view where
/// `of_box` is set; `element` is the place in a list of two, as the two ends of a range.
struct FieldSpec {
    enum class Kind { text, number, money, word, flag, words };
    const char* name = "";
    const char* label = "";
    const char* unit = "";
    const char* pointer = "";
    Kind kind = Kind::text;
    bool of_box = false;
    int element = -1;
    const char* words = "";  ///< key of the allowed words, for a word or a list of words
    bool joined = false;     ///< stands in one cell with the field before
    const char* spoken = ""; ///< accessible name, where the label alone is too short
};

/// A label with its entry. The entry is empty where the request says nothing; the value that was
/// taken instead stands in it in grey. What the check of the request refuses is not stored: the
/// entry stays as typed, `DeskState::refused` says what was expected, and leaving the field puts
/// the stored value back.
class Field {
public:
    /// Adds the label to one sizer, the entry with its unit to another (or the same).
    Field(wxWindow* parent, wxSizer* label, wxSizer* entry, const FieldSpec& spec,
          DeskState& state);
    Field(const Field&) = delete;
    Field& operator=(const Field&) = delete;

    /// True where the width of the label changed.
    bool show();
    void focus();
    std::string pointer() const;
    wxWindow* control() const { return control_; }

private:
    bool mark_copied();
    void make_control(wxWindow* parent);
    void bind_events();
    std::optional<Node> typed() const;
    void store();
    std::optional<Node> in_range(std::optional<Node> end) const;
    std::string own_pointer() const;
    std::string spoken() const { return *spec_.spoken ? spec_.spoken : spec_.label; }

    const FieldSpec& spec_;
    DeskState& state_;
    wxStaticText* label_ = nullptr;
    wxWindow* control_ = nullptr;
    wxTextEntry* entry_ = nullptr;
    bool refused_ = false; ///< what stands in the entry was not stored
};

} // namespace backplate
