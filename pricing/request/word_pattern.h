#pragma once

#include <string_view>

namespace backplate {

/// Whether the whole text is of the pattern: characters, `.`, `[a-z]` and `[^a-z]`, groups with
/// `|`, each followed by `?`, `*`, `+`, `{n}` or `{n,m}`; `\` takes the next character as it is.
/// `^` and `$` at the ends say what holds anyway; a bracket left open closes at the end.
bool matches_pattern(std::string_view pattern, std::string_view text);

} // namespace backplate
