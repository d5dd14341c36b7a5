#pragma once

#include <map>
#include <string>
#include <vector>

#include "pricing/request/fill_defaults.h"

namespace backplate {

/// The values of one group that an assumption's sentence may name, as they are printed.
using SentenceValues = std::map<std::string, std::string>;

/// `open` are the values of the group that were filled in, all in one box.
SentenceValues sentence_values(const Node& filled, const std::vector<const FilledValue*>& open,
                               const RuleBook& rules);

/// Whether a value that was filled in is worth a sentence: a link only where another box has the
/// controller, a voltage only off 24 V, data of equipment only beside a text and its sizes only
/// where it takes room.
bool is_printed(const Node& filled, const FilledValue& value);

} // namespace backplate
