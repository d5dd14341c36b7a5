#pragma once

#include <string>

#include "catalog/library/library.h"

namespace backplate {

/// What --library names for starter rules and demo prices in memory.
bool is_starter(const std::string& library);

/// The library file that --library names: the default's path where it names none.
std::string library_path(const std::string& library);

/// Opens the library to change it, made from the starter data where it does not exist yet. Throws
/// BadInput where it is the starter data, OutsideFault as Library does.
Library open_library(const std::string& library);

/// Parts and rules as they are stored, whether or not they make books. As load_inputs otherwise.
LibraryContent load_content(const std::string& library);

/// The currency that prices are in, as the rules name it; "currency" where they name none.
std::string book_currency(const RuleTables& rules);

/// Decimals of a currency's amounts by the rules; 2 where they name none.
int currency_digits(const RuleTables& rules, const std::string& currency);

/// Who changes: the user's name as the system gives it, else "unknown".
std::string user_name();

/// Whether the path names a folder; a path that cannot be looked at names none.
bool is_folder(const std::string& path);

/// A fault of rules in one line: "table hours, row wire, column once: …".
std::string fault_text(const RuleFault& fault);

} // namespace backplate
