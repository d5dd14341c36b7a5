#include <iostream>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/request_input.h"
#include "pricing/job/enquiry.h"
#include "pricing/price_job.h"
#include "pricing/values/faults.h"
#include "reports/wording.h"
#include "reports/workbook/enquiry.h"
#include "reports/workbook/workbook.h"

namespace backplate {
namespace {

/// The stops, one to a line; empty where the offer may be sent.
std::string stops_of(const Estimate& estimate, const RuleBook& rules) {
    std::string text;
    for (const Finding& finding : estimate.findings)
        if (finding.severity == Severity::stop)
            text += "\n  " + finding.code + ": " + finding_text(finding, rules);
    return text;
}

/// Writes the client's edition where it may be; false where a stop forbids it.
bool write_client(const Estimate& estimate, const RuleBook& rules,
                  const QuoteArguments& arguments) {
    const std::string stops = stops_of(estimate, rules);
    if (estimate.price && (stops.empty() || arguments.draft)) {
        write_client_workbook(estimate, rules, arguments.client, arguments.draft);
        return true;
    }
    std::cerr << "backplate: " << arguments.client << " is not written, for"
              << (stops.empty() ? " the job has no price" : stops) << "\n";
    if (estimate.price) std::cerr << "  (--draft writes it, marked DRAFT on every page)\n";
    return false;
}

void print_file(const std::string& what, const std::string& file, const Estimate& estimate) {
    std::cout << what << ": " << file << (estimate.demo_data ? " (demo data)" : "") << "\n";
}

void print_json(const QuoteArguments& arguments, bool client, const Estimate& estimate) {
    std::cout << "{ \"workbook\": \"" << arguments.workbook << "\"";
    if (!arguments.client.empty())
        std::cout << ", \"client\": " << (client ? "\"" + arguments.client + "\"" : "null");
    if (!arguments.enquiry.empty()) std::cout << ", \"enquiry\": \"" << arguments.enquiry << "\"";
    std::cout << ", \"buildable\": " << (estimate.buildable ? "true" : "false") << " }\n";
}

} // namespace

int run_quote(const QuoteArguments& arguments, const CommonArguments& common) {
    if (arguments.workbook.empty()) throw BadInput("quote: expected --workbook FILE.xlsx");
    if (arguments.client == arguments.workbook)
        throw BadInput("quote: --client names the same file as --workbook, expected another");
    if (!arguments.enquiry.empty() &&
        (arguments.enquiry == arguments.workbook || arguments.enquiry == arguments.client))
        throw BadInput("quote: --enquiry names the same file as another, expected one of its own");
    const Inputs inputs = load_inputs(common.library);
    const BidRequest request = read_request(arguments.request, inputs);
    Work work;
    const Estimate estimate = price_job(request, *inputs.prices, *inputs.rules, work);
    const FoundSteps steps = asked_price_steps(estimate, *inputs.prices, *inputs.rules, work);
    write_workbook(estimate, *inputs.rules, arguments.workbook, steps);
    const auto asked = enquiry_lines(estimate, *inputs.prices, *inputs.rules);
    if (!arguments.enquiry.empty()) write_enquiry(estimate, asked, arguments.enquiry);
    const bool client =
        !arguments.client.empty() && write_client(estimate, *inputs.rules, arguments);
    if (common.json) {
        print_json(arguments, client, estimate);
    } else {
        print_file("Workbook", arguments.workbook, estimate);
        if (!arguments.enquiry.empty())
            print_file("Enquiry, " + counted(asked.size(), "line"), arguments.enquiry, estimate);
        if (client) print_file("Client's edition", arguments.client, estimate);
    }
    if (!estimate.buildable)
        std::cerr << "backplate: nothing in the price book builds this; the workbook says what "
                     "binds\n";
    const bool refused = !arguments.client.empty() && !client;
    return estimate.buildable && !refused ? done : not_as_asked;
}

} // namespace backplate
