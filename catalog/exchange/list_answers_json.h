#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/takeoff/list_answers.h"

namespace backplate {

/// How a list is to be read, `backplate-takeoff-answers/1`: JSON with comments, keys format,
/// encoding, delimiter, heading_row, columns (heading or "column C": role, or "ignore"), answers
/// (reason, and sheet, row, type where it is not for all; answer: accept, leave_out, count, an
/// object of signals or of a panel). All but the format may be absent. Throws BadInput naming
/// `name`, the key and the expectation.
ListAnswers read_list_answers(const std::string& name, const std::string& text,
                              const RuleBook& rules);

/// The answers as text that reads back equal.
std::string list_answers_text(const ListAnswers& answers);

} // namespace backplate
