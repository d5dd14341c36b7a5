#pragma once

#include <memory>
#include <string>

#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"

namespace backplate {

/// What a run works on: snapshots of prices and rules, one issue each.
struct Inputs {
    std::shared_ptr<const PriceBook> prices;
    std::shared_ptr<const RuleBook> rules;
    RuleTables rule_tables;
    std::string library; ///< as load_inputs was given it
};

/// `library`: a file, ":starter:" (starter rules and demo prices, in memory, nothing written), or
/// empty (the file in the user's data folder, made on first use from the starter data).
/// Throws BadInput or OutsideFault.
Inputs load_inputs(const std::string& library);

/// The folder that holds `rules/` and `prices/`: $BACKPLATE_DATA, else share/backplate beside the
/// program, else the source tree of the build. Throws OutsideFault where none is there.
struct DataFolders {
    std::string rules, prices;
};
DataFolders data_folders();

/// Where the library lies when nobody names one: $XDG_DATA_HOME or ~/.local/share, /backplate.
std::string default_library_path();

const char* program_version();

} // namespace backplate
