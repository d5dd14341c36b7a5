#include "app/request_input.h"

#include <chrono>
#include <iostream>
#include <iterator>

#include "app/saved_job.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/job/inherited.h"
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

namespace {

std::vector<std::string> parts_used(const JobRevision& revision) {
    std::vector<std::string> parts;
    for (const UsedRow& row : revision.rows)
        if (row.table == "parts") parts.push_back(row.key);
    return parts;
}

/// The template of a copy that was made here; numbers of an imported job are another library's.
std::optional<Job> template_of(const Library& library, const Job& job) {
    if (!job.copied_from || !job.origin.empty()) return std::nullopt;
    return library.job(job.copied_from->job);
}

} // namespace

SavedAs copy_to_be(const Job& from) {
    return {0, 1, from.number, from.latest().number, parts_used(from.latest())};
}

SavedAs saved_as(const Library& library, const Job& job, const JobRevision& revision) {
    SavedAs saved{job.number, revision.number};
    const auto copied = revision.number == 1 ? template_of(library, job) : std::nullopt;
    const int number = copied ? job.copied_from->revision : revision.number - 1;
    if (const JobRevision* from = (copied ? *copied : job).revision(number)) {
        saved.from_job = copied ? copied->number : job.number;
        saved.from_revision = from->number;
        saved.from_parts = parts_used(*from);
    }
    return saved;
}

RequestText request_text(const std::string& name, const Inputs& inputs) {
    const auto saved = job_reference(name);
    if (!saved)
        return {name == "-" ? "standard input" : name, read_text(name), std::nullopt, std::nullopt};
    const Library library = open_jobs(inputs.library);
    const Job job = library.job(saved->number);
    const JobRevision& revision = revision_named(job, *saved);
    RequestText given{name, revision.request, std::nullopt, saved_as(library, job, revision)};
    if (job.copied_from && !job.unconfirmed.empty())
        given.inherited = inherited_from(job.copied_from->job, job.unconfirmed);
    return given;
}

BidRequest checked_request(const RequestText& given, const Inputs& inputs) {
    const ParsedJson parsed = parse_json(given.shown, given.text);
    CheckedRequest checked = check_request(parsed.root, *inputs.rules, today());
    if (checked.request) {
        checked.request->inherited = given.inherited;
        checked.request->saved = given.saved;
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
