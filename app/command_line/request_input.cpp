#include "app/command_line/request_input.h"

#include <chrono>
#include <iostream>
#include <iterator>

#include "app/command_line/saved_job.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

namespace backplate {

Date today() {
    const auto now = std::chrono::system_clock::now();
    return {
        static_cast<int>(std::chrono::floor<std::chrono::days>(now).time_since_epoch().count())};
}

std::string read_text(const std::string& name) {
    if (name != "-") return read_file(name);
    return {std::istreambuf_iterator<char>(std::cin), std::istreambuf_iterator<char>()};
}

RequestText request_text(const std::string& name, const Inputs& inputs) {
    const auto saved = job_reference(name);
    if (!saved) return {name == "-" ? "standard input" : name, read_text(name), std::nullopt};
    const Job job = open_jobs(inputs.library).job(saved->number);
    RequestText given{name, revision_named(job, *saved).request, std::nullopt};
    if (job.copied_from && !job.unconfirmed.empty())
        given.inherited = Inherited{job.copied_from->job, static_cast<int>(job.unconfirmed.size())};
    return given;
}

BidRequest checked_request(const RequestText& given, const Inputs& inputs) {
    const ParsedJson parsed = parse_json(given.shown, given.text);
    CheckedRequest checked = check_request(parsed.root, *inputs.rules, today());
    if (checked.request) {
        checked.request->inherited = given.inherited;
        return std::move(*checked.request);
    }
    std::string message = given.shown + ":";
    for (const RequestFault& fault : checked.faults)
        message +=
            "\n  " + (fault.where.empty() ? std::string("/") : fault.where) + ": " + fault.text;
    throw BadInput(message);
}

BidRequest read_request(const std::string& name, const Inputs& inputs) {
    return checked_request(request_text(name, inputs), inputs);
}

} // namespace backplate
