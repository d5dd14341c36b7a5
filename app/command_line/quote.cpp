#include <array>
#include <iostream>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/request_input.h"
#include "pricing/job/enquiry.h"
#include "pricing/price_job.h"
#include "pricing/values/faults.h"
#include "reports/drawing/drawing_file.h"
#include "reports/drawing/sheets.h"
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

/// May a document for the client be written: false, with the reason said, where a stop forbids it
/// or `lack` says what is missing.
bool may_write(const std::string& file, const std::string& lack, const std::string& stops,
               bool draft) {
    if (lack.empty() && (stops.empty() || draft)) return true;
    std::cerr << "backplate: " << file << " is not written, for"
              << (stops.empty() ? " " + lack : stops) << "\n";
    if (lack.empty()) std::cerr << "  (--draft writes it, marked DRAFT on every page)\n";
    return false;
}

/// What is written, each with its name for the user; asked files that may not be written are empty.
struct Written {
    std::string workbook, client, enquiry, drawing;
    std::size_t enquiry_lines = 0;
    bool refused = false;
};

Written write_documents(const Estimate& estimate, const Inputs& inputs,
                        const QuoteArguments& arguments, Work& work) {
    const RuleBook& rules = *inputs.rules;
    Written written;
    if (!arguments.workbook.empty()) {
        const FoundSteps steps = asked_price_steps(estimate, *inputs.prices, rules, work);
        write_workbook(estimate, rules, arguments.workbook, steps);
        written.workbook = arguments.workbook;
    }
    if (!arguments.enquiry.empty()) {
        const auto asked = enquiry_lines(estimate, *inputs.prices, rules);
        write_enquiry(estimate, asked, arguments.enquiry);
        written.enquiry = arguments.enquiry;
        written.enquiry_lines = asked.size();
    }
    const std::string stops = stops_of(estimate, rules);
    if (!arguments.client.empty() &&
        may_write(arguments.client, estimate.price ? "" : "the job has no price", stops,
                  arguments.draft)) {
        write_client_workbook(estimate, rules, arguments.client, arguments.draft);
        written.client = arguments.client;
    }
    if (!arguments.drawing.empty() &&
        may_write(arguments.drawing, estimate.buildable ? "" : "nothing builds the job", stops,
                  arguments.draft)) {
        write_drawing(drawing_sheets(estimate, arguments.draft), estimate.request.title,
                      estimate.request.date, arguments.drawing);
        written.drawing = arguments.drawing;
    }
    written.refused = written.client != arguments.client || written.drawing != arguments.drawing;
    return written;
}

void print_files(const Written& written, const Estimate& estimate) {
    const auto print = [&](const std::string& what, const std::string& file) {
        if (!file.empty())
            std::cout << what << ": " << file << (estimate.demo_data ? " (demo data)" : "") << "\n";
    };
    print("Workbook", written.workbook);
    print("Enquiry, " + counted(written.enquiry_lines, "line"), written.enquiry);
    print("Client's edition", written.client);
    print("Drawing", written.drawing);
}

/// Keys of the files that were asked for, null where one may not be written.
void print_json(const QuoteArguments& asked, const Written& written, const Estimate& estimate) {
    std::cout << "{ ";
    const auto print = [&](const char* key, const std::string& wanted, const std::string& file) {
        if (wanted.empty()) return;
        std::cout << "\"" << key << "\": " << (file.empty() ? "null" : "\"" + file + "\"") << ", ";
    };
    print("workbook", asked.workbook, written.workbook);
    print("client", asked.client, written.client);
    print("enquiry", asked.enquiry, written.enquiry);
    print("drawing", asked.drawing, written.drawing);
    std::cout << "\"buildable\": " << (estimate.buildable ? "true" : "false") << " }\n";
}

/// Every file has a name of its own; at least one is asked for.
void check_files(const QuoteArguments& arguments) {
    const auto files = std::array{
        std::pair{"--workbook", &arguments.workbook}, std::pair{"--client", &arguments.client},
        std::pair{"--enquiry", &arguments.enquiry}, std::pair{"--drawing", &arguments.drawing}};
    if (arguments.workbook.empty() && arguments.drawing.empty())
        throw BadInput("quote: expected --workbook FILE.xlsx or --drawing FILE.pdf");
    for (std::size_t i = 0; i < files.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (!files[i].second->empty() && *files[i].second == *files[j].second)
                throw BadInput(std::string("quote: ") + files[i].first +
                               " names the same file as " + files[j].first + ", expected another");
    if (!arguments.drawing.empty() && drawing_kind(arguments.drawing) == DrawingKind::unknown)
        throw BadInput("quote: --drawing " + arguments.drawing +
                       ": expected a name that ends in .pdf, .svg or .png");
}

} // namespace

int run_quote(const QuoteArguments& arguments, const CommonArguments& common) {
    check_files(arguments);
    const Inputs inputs = load_inputs(common.library);
    const BidRequest request = read_request(arguments.request, inputs);
    Work work;
    const Estimate estimate = price_job(request, *inputs.prices, *inputs.rules, work);
    const Written written = write_documents(estimate, inputs, arguments, work);
    if (common.json)
        print_json(arguments, written, estimate);
    else
        print_files(written, estimate);
    if (!estimate.buildable && !written.workbook.empty())
        std::cerr << "backplate: nothing in the price book builds this; the workbook says what "
                     "binds\n";
    return estimate.buildable && !written.refused ? done : not_as_asked;
}

} // namespace backplate
