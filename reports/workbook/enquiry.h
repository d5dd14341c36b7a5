#pragma once

#include <string>
#include <vector>

#include "pricing/job/enquiry.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// The enquiry to suppliers (.xlsx): what to offer, by maker, with cells for the answer. No price,
/// cost or margin of ours, no title, enquiry or client of the job. Written beside `path`, which it
/// replaces when complete; also without lines, then it says so. Throws OutsideFault.
void write_enquiry(const Estimate& estimate, const std::vector<EnquiryLine>& lines,
                   const std::string& path);

} // namespace backplate
