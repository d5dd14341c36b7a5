#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_tables.h"
#include "pricing/takeoff/list_answers.h"

namespace backplate {

/// The rules with what the answers teach: headings that name the role of a column, and type texts
/// that were answered for all rows by one piece of a signal, as rows of the tables headings and
/// spellings. What the rules hold already is not added again. `source`: who said so.
RuleTables with_new_spellings(RuleTables rules, const ListAnswers& answers,
                              const std::string& source);

} // namespace backplate
