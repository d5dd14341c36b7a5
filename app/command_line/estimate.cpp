#include <iostream>

#include "app/command_line/commands.h"
#include "app/command_line/example_request.h"
#include "app/command_line/summary.h"
#include "app/request_input.h"
#include "pricing/price_job.h"
#include "reports/estimate_json.h"

namespace backplate {

int run_estimate(const EstimateArguments& arguments, const CommonArguments& common) {
    const Inputs inputs = load_inputs(common.library);
    if (arguments.example) {
        std::cout << example_request(*inputs.rules, arguments.practice == "north_america");
        return done;
    }
    const BidRequest request = read_request(arguments.request, inputs);
    Work work;
    const Estimate estimate = price_job(request, *inputs.prices, *inputs.rules, work);
    std::cout << (common.json ? estimate_json(estimate, *inputs.rules, program_version())
                              : estimate_summary(estimate, *inputs.rules));
    return estimate.buildable ? done : not_as_asked;
}

} // namespace backplate
