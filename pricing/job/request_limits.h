#pragma once

#include <functional>
#include <string>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// A wish or condition of a request that narrows what can be built.
struct RequestLimit {
    std::string text;  ///< "a width of at most 400 mm"
    std::string where; ///< JSON pointer into the request
    std::function<void(BidRequest&)> lift;
};

/// The limits of these boxes (places in the request) and the spare of the job that differ from no
/// limit, those that are easiest to give up first; defaults are limits too. Lifted: sizes, free
/// room, spare, choices, protection, approvals, needs of points and the fault current ask nothing;
/// an existing plate gives way to a box of the client's that is large enough; temperatures become
/// the row `mild_c` of the table `conflicts`, the place indoors and clean, at sea level, with a
/// free box; one feed. Points, mains voltage, equipment and who leads a box are no limits.
std::vector<RequestLimit> request_limits(const BidRequest& request,
                                         const std::vector<std::size_t>& boxes,
                                         const RuleBook& rules);

} // namespace backplate
