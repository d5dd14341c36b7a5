#pragma once

#include <optional>
#include <string>

#include "app/inputs.h"
#include "catalog/library/library.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// A request as it was given, and what messages call it.
struct RequestText {
    std::string shown, text;
    std::optional<Inherited> inherited; ///< of a saved copy with values to be confirmed
    std::optional<SavedAs> saved;       ///< where it is saved
};

/// A file, "-" for standard input, or `job:NUMBER` (`job:NUMBER/REVISION`) for a saved job of the
/// library that the inputs come from.
RequestText request_text(const std::string& name, const Inputs& inputs);

/// The first revision of a copy, not numbered yet.
SavedAs copy_to_be(const Job& from);

/// Where a revision of a job of the library is saved and what it was made from.
SavedAs saved_as(const Library& library, const Job& job, const JobRevision& revision);

/// Checks and fills a request. Throws BadInput that lists every fault with its place and the
/// expectation.
BidRequest checked_request(const RequestText& given, const Inputs& inputs);

/// Both.
BidRequest read_request(const std::string& name, const Inputs& inputs);

/// The whole of a stream or file as bytes; "-" is standard input.
std::string read_text(const std::string& name);

Date today();

} // namespace backplate
