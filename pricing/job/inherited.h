#pragma once

#include <vector>

#include "pricing/job/saved_job.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// The request of a job's template as a new job starts with it: without the days and the enquiry
/// that belong to the other job.
Node template_request(const Node& request);

/// Every value that a request states, and the questions that every copy asks again: spare and
/// commercial terms, and the site of each box (trade-practice 3.2, pain point 9). Fields are
/// JSON pointers in which an entry of a list of objects stands under its id, name, signal, part
/// or text, so that a new entry does not move the others; boxes stand under their place. Lists of
/// plain values are one value.
std::vector<InheritedValue> inherited_values(const Node& request);

/// Where a field of inherited_values stands in the request, as a JSON pointer; the nearest place
/// around it where it is no longer there.
std::string pointer_of(const Node& request, const std::string& field);

/// What is to be confirmed of a copy of the job, by place: "/boxes/0/points (12), /spare (5)".
Inherited inherited_from(int job, const std::vector<InheritedValue>& unconfirmed);

} // namespace backplate
