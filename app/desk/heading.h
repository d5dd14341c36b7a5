#pragma once

#include <string>

class wxStaticText;
class wxWindow;

namespace backplate {

/// The heading of a column, in bold.
wxStaticText* make_heading(wxWindow* parent, const std::string& text);

/// The heading of a group in a column, in bold.
wxStaticText* make_subheading(wxWindow* parent, const std::string& text);

/// A line under the heading or beside a figure, in the colour of less important text.
wxStaticText* make_muted(wxWindow* parent, const std::string& text);

} // namespace backplate
