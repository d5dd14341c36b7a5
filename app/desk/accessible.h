#pragma once

#include <string>

class wxWindow;

namespace backplate {

/// Gives a control its name: for the toolkit, as its accessible id (tests find it by that), and
/// `label` as what a screen reader says.
void name_control(wxWindow& control, const std::string& name, const std::string& label);

/// The name given to the control that `part` is, or is inside of; empty where none was given.
std::string given_name(const wxWindow* part);

/// What a screen reader says of the control's content, for controls that draw it themselves.
void describe_control(wxWindow& control, const std::string& content);

} // namespace backplate
