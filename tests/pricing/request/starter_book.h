#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/request/check_request.h"

namespace backplate {

/// The rule book of the starter rows, made once.
const RuleBook& starter_book();

/// The tree of JSON text; a file by its path below tests/.
Node tree_of(const std::string& json);
std::string test_file(const std::string& path);

/// Checked on 2026-11-24.
CheckedRequest checked(const Node& sent);
/// As above; fails the test where there are faults.
BidRequest good_request(const std::string& json);

/// One line of points with further members: `"wiring": "contact"`.
std::string small_request(const std::string& job_members, const std::string& box_members,
                          const std::string& line_members);

} // namespace backplate
