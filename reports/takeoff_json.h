#pragma once

#include <string>

#include "pricing/takeoff/take_off.h"

namespace backplate {

/// How the list came: names as `read` prints them.
struct ListReading {
    std::string file;
    std::string encoding;  ///< utf-8, utf-8-bom, utf-16-le, utf-16-be, cp1252
    std::string delimiter; ///< one character
};

/// backplate-takeoff/1, ending with a newline. `outcome` is import, or import_with_questions where
/// a row is asked or refused; `proposal` is null where the user must choose.
std::string takeoff_json(const Takeoff& takeoff, const ListReading& reading);

/// What a reason word asks or warns, as a person reads it: "type_blank" -> "the type is blank".
std::string takeoff_reason(const std::string& reason);

} // namespace backplate
