#include <iostream>

#include "app/command_line/commands.h"
#include "app/command_line/request_input.h"
#include "pricing/price_job.h"
#include "pricing/request/node_values.h"
#include "pricing/values/faults.h"
#include "reports/workbook/workbook.h"

namespace backplate {

int run_quote(const QuoteArguments& arguments, const CommonArguments& common) {
    if (arguments.workbook.empty()) throw BadInput("quote: expected --workbook FILE.xlsx");
    const Inputs inputs = load_inputs(common.library);
    const BidRequest request = read_request(arguments.request, inputs);
    Work work;
    const Estimate estimate = price_job(request, *inputs.prices, *inputs.rules, work);
    write_workbook(estimate, *inputs.rules, arguments.workbook);
    if (common.json)
        std::cout << "{ \"workbook\": \"" << arguments.workbook
                  << "\", \"buildable\": " << (estimate.buildable ? "true" : "false") << " }\n";
    else
        std::cout << "Workbook: " << arguments.workbook
                  << (estimate.demo_data ? " (demo data)" : "") << "\n";
    if (!estimate.buildable)
        std::cerr << "backplate: nothing in the price book builds this; the workbook says what "
                     "binds\n";
    return estimate.buildable ? done : not_as_asked;
}

} // namespace backplate
