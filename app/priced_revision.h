#pragma once

#include <string>

#include "app/request_input.h"
#include "pricing/job/estimate.h"
#include "pricing/job/saved_job.h"

namespace backplate {

/// A request priced with the inputs, and what a saved job keeps of it.
struct PricedRevision {
    Estimate estimate;
    JobRevision revision;
};

/// The same out of an estimate that was made of the text with these inputs.
PricedRevision priced_revision(const std::string& text, const Estimate& estimate,
                               const Inputs& inputs);

/// Throws BadInput as checked_request does.
PricedRevision priced_revision(const RequestText& given, const Inputs& inputs);

/// "12345.00 EUR (demo data)", or that nothing builds it.
std::string price_line(const JobRevision& revision);

} // namespace backplate
