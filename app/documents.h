#pragma once

#include <string>
#include <vector>

#include "app/inputs.h"
#include "pricing/job/estimate.h"
#include "pricing/values/work.h"

namespace backplate {

/// Which documents of an estimate are wanted, and where.
struct DocumentWish {
    std::string folder;
    bool workbook = true, client = false, enquiry = false, drawing = false;
    bool draft = false; ///< client's edition and drawing in spite of a stop, marked on every page
};

struct WrittenDocument {
    std::string what, path;
};

/// What forbids the client's edition: a line per stop, or that there is no price; empty: nothing.
std::string stops_of(const Estimate& estimate, const RuleBook& rules);

/// A file name that is made of a title: what no file name may hold is left out.
std::string file_stem(const std::string& title);

/// A path in the folder that no file has: "stem.xlsx", else "stem 2.xlsx" …
std::string free_path(const std::string& folder, const std::string& stem,
                      const std::string& extension);

/// Writes the documents under names that no file has yet. The client's edition and the drawing are
/// refused where a stop forbids them and no draft is wanted. Throws BadInput, OutsideFault,
/// Stopped; what was complete by then stays.
std::vector<WrittenDocument> write_documents(const Estimate& estimate, const Inputs& inputs,
                                             const DocumentWish& wish, Work& work);

} // namespace backplate
