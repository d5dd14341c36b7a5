#pragma once

#include <string>

#include "pricing/book/rule_tables.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// What a job takes by the norms as they stand: the panel that a shop knows its own hours of.
struct KnownJob {
    int points = 0;
    double shop_hours = 0;                      ///< of the workshop
    double other_hours = 0;                     ///< engineering, software, test, documents
    double rate_shop = 0, rate_engineering = 0; ///< as the rules have them
    std::string currency;
};
KnownJob known_job(const Estimate& estimate, const RuleTables& rules);

/// The five answers of a first start; 0 or empty: leave it as it is.
struct ShopAnswers {
    double rate_shop = 0, rate_engineering = 0; ///< per hour
    double hours_per_point = 0; ///< engineering, software, test and papers of one point
    double shop_hours = 0;      ///< of the workshop for the job in view
    std::string currency;       ///< three letters
};

/// The rules with rates and norms scaled so that they give these answers for the known job, the
/// norms marked as confirmed. Rates of test and site go with the workshop's, the others with
/// engineering's. Throws BadInput where an answer is not plausible: a rate or a norm would have to
/// change by more than the factor of the row shop/most_answer_factor; without the row any is taken.
RuleTables with_shop_answers(const RuleTables& rules, const ShopAnswers& answers,
                             const KnownJob& job);

} // namespace backplate
