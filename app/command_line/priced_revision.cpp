#include "app/command_line/priced_revision.h"

#include "catalog/exchange/job_file.h"
#include "catalog/library/used_rows.h"
#include "pricing/job/rows_used.h"
#include "pricing/price_job.h"
#include "reports/estimate_json.h"

namespace backplate {

PricedRevision priced_revision(const RequestText& given, const Inputs& inputs) {
    Work work;
    Estimate estimate =
        price_job(checked_request(given, inputs), *inputs.prices, *inputs.rules, work);
    const RowNames names = rows_used(estimate);
    JobRevision revision = revision_of(
        "the estimate", given.text, estimate_json(estimate, *inputs.rules, program_version()),
        used_rows(names.parts, names.rules, inputs.prices->parts(), inputs.rule_tables));
    return {std::move(estimate), std::move(revision)};
}

std::string price_line(const JobRevision& revision) {
    if (revision.price.empty()) return "nothing in the price book builds it";
    return revision.price + " " + revision.currency + (revision.demo_data ? " (demo data)" : "");
}

} // namespace backplate
