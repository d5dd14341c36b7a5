#pragma once

#include <span>
#include <string_view>

namespace backplate {

/// The steps of the schema in order: script n leads from version n - 1 to version n.
std::span<const std::string_view> schema_scripts();

} // namespace backplate
