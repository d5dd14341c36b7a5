#pragma once

#include <wx/defs.h>

namespace backplate::command {

/// Numbers of the window's own commands.
inline constexpr int most_alternatives = 9;
inline constexpr int most_pages = 6;
inline constexpr int duplicate = wxID_HIGHEST + 1;
inline constexpr int read_again = duplicate + 1;
inline constexpr int add_box = duplicate + 2;
inline constexpr int double_box = duplicate + 3;
inline constexpr int remove_box = duplicate + 4;
inline constexpr int next_box = duplicate + 5;
inline constexpr int box_before = duplicate + 6;
inline constexpr int next_finding = duplicate + 7;
inline constexpr int take_off = duplicate + 8;
inline constexpr int documents = duplicate + 9;
inline constexpr int open_folder = duplicate + 10;
inline constexpr int keys = duplicate + 11;
inline constexpr int accept_all = duplicate + 12;
inline constexpr int shop = duplicate + 13;
inline constexpr int next_column = duplicate + 14;
inline constexpr int open_job = duplicate + 15;
inline constexpr int save_job = duplicate + 16;
inline constexpr int revise_job = duplicate + 17;
inline constexpr int stop_looking = duplicate + 161;
inline constexpr int why_value = duplicate + 162;
inline constexpr int confirm = duplicate + 18;
inline constexpr int confirm_all = duplicate + 19;
inline constexpr int take_first = duplicate + 20;
inline constexpr int page_first = duplicate + 40;
inline constexpr int listed_first = duplicate + 60;
inline constexpr int listed_end = duplicate + 160;

} // namespace backplate::command
