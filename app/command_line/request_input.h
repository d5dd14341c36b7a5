#pragma once

#include <string>

#include "app/inputs.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// Reads a request (a file, or "-" for standard input), checks and fills it. Throws BadInput that
/// lists every fault with its place and the expectation.
BidRequest read_request(const std::string& name, const Inputs& inputs);

/// The whole of a stream or file as bytes; "-" is standard input.
std::string read_text(const std::string& name);

Date today();

} // namespace backplate
