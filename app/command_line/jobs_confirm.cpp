#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/counted.h"
#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/saved_job.h"
#include "catalog/exchange/request_json.h"
#include "pricing/request/node_values.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

/// What stands at a question that is asked again.
std::string standing(const Node& request, const std::string& field) {
    const Node* found = at_pointer(request, field);
    return found ? json_line(*found) : "not stated: the defaults";
}

Json values_json(const std::vector<InheritedValue>& values) {
    Json list = Json::array();
    for (const InheritedValue& value : values)
        list.push_back({{"field", value.field},
                        {"value", value.value.empty() ? Json(nullptr) : Json::parse(value.value)},
                        {"asked_again", value.value.empty()}});
    return list;
}

int print_open(const Job& job, bool json) {
    if (json) {
        print_job(job, "", true, {{"values", values_json(job.unconfirmed)}});
        return done;
    }
    const Node request = parse_json(fmt::format("job:{}", job.number), job.latest().request).root;
    for (const InheritedValue& value : job.unconfirmed)
        if (value.value.empty())
            fmt::print("{}: asked again; stands as {}\n", value.field,
                       standing(request, value.field));
        else
            fmt::print("{}: {}\n", value.field, value.value);
    fmt::print("{} to be confirmed: jobs confirm {} FIELD…, or --all\n",
               counted(job.unconfirmed.size(), "value"), job.number);
    return done;
}

} // namespace

int run_jobs_confirm(const ConfirmJob& arguments, const CommonArguments& common) {
    const int number = job_number(arguments.number);
    if (arguments.all && !arguments.fields.empty())
        throw BadInput("jobs confirm: fields and --all; expected one of them");
    Library library = open_jobs(common.library);
    if (!arguments.all && arguments.fields.empty())
        return print_open(library.job(number), common.json);
    std::vector<InheritedValue> confirmed;
    const Job job = library.change_job(
        number, [&](Job& changed) { confirmed = confirm(changed, arguments.fields); });
    print_job(
        job,
        fmt::format("{} confirmed, {} to be confirmed", confirmed.size(), job.unconfirmed.size()),
        common.json, {{"confirmed", values_json(confirmed)}});
    return done;
}

} // namespace backplate
