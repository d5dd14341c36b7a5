#include "app/priced_revision.h"

#include "catalog/exchange/job_file.h"
#include "catalog/library/used_rows.h"
#include "pricing/job/rows_used.h"
#include "pricing/price_job.h"
#include "reports/estimate_json.h"

namespace backplate {

PricedRevision priced_revision(const std::string& text, const Estimate& estimate,
                               const Inputs& inputs) {
    const RowNames names = rows_used(estimate);
    JobRevision revision = revision_of(
        "the estimate", text, estimate_json(estimate, *inputs.rules, program_version()),
        used_rows(names.parts, names.rules, inputs.prices->parts(), inputs.rule_tables));
    return {estimate, std::move(revision)};
}

PricedRevision priced_revision(const RequestText& given, const Inputs& inputs) {
    Work work;
    return priced_revision(
        given.text, price_job(checked_request(given, inputs), *inputs.prices, *inputs.rules, work),
        inputs);
}

std::string price_line(const JobRevision& revision) {
    if (revision.price.empty()) return "nothing in the price book builds it";
    return revision.price + " " + revision.currency + (revision.demo_data ? " (demo data)" : "");
}

} // namespace backplate
