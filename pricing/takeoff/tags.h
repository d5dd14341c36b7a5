#pragma once

#include <optional>
#include <string>

#include "pricing/takeoff/lexicon.h"

namespace backplate {

/// A warning word for a tag that cannot be what the client wrote, or that stands for two signals:
/// tag_is_date ("2-Jan", "03.Feb", "2031-05-06"), tag_is_number ("1.00E+05", or five digits, as a
/// spreadsheet keeps a day), tag_two_signals ("ZSC/O-3"); nothing where it looks sound.
std::optional<std::string> tag_warning(const std::string& tag, const Lexicon& lexicon);

/// How many tags one range or group stands for: 4 for "LSH-101…104", 3 for "P-1A/B/C"; nothing
/// where the tag is a single one.
std::optional<int> tags_in_range(const std::string& tag);

} // namespace backplate
