#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// Whether the name is one of windows-1250, -1251, -1252, -1253, -1254, -1257, ibm850, ibm852.
bool is_code_page(std::string_view name);

/// Text of an 8-bit code page as UTF-8; `name` must be one.
std::string from_code_page(std::string_view bytes, std::string_view name);

/// The code page in which most texts of the file are words of the trade; windows-1252 where none
/// stands out.
std::string_view likely_code_page(std::string_view bytes, const std::vector<std::string>& words);

} // namespace backplate
