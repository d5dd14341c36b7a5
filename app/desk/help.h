#pragma once

class wxWindow;

namespace backplate {

/// One page on how the window is used; the same window is brought up again. Escape closes.
void show_guide(wxWindow& parent);
/// Every key.
void show_keys(wxWindow& parent);
/// Version, what the figures are and are not, the libraries used with their licences.
void show_about(wxWindow& parent);

} // namespace backplate
