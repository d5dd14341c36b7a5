#pragma once

#include "pricing/request/bid_request.h"

namespace backplate {

/// The typed request of a filled tree without faults; `filled` is kept in it, `sent` and the
/// assumptions are the caller's.
BidRequest to_bid_request(Node filled);

} // namespace backplate
