#include "app/command_line/jobs_report.h"

#include <filesystem>

#include <fmt/format.h>

#include "app/priced_revision.h"
#include "catalog/cells/table.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

std::string rows_text(const std::vector<UsedRow>& rows) {
    Json list = Json::array();
    for (const UsedRow& row : rows)
        list.push_back({{"table", row.table}, {"key", row.key}, {"cells", Json::parse(row.cells)}});
    return list.dump(2) + "\n";
}

} // namespace

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

std::string shown_title(const std::string& title) { return title.empty() ? "(no title)" : title; }

void print_job(const Job& job, const std::string& said, bool json, const Json& more) {
    const JobRevision& latest = job.latest();
    if (!json) {
        fmt::print("job {}, revision {}, {}: {}; {}{}\n", job.number, latest.number,
                   state_word(job.state().state), shown_title(job.title), price_line(latest),
                   said.empty() ? "" : "; " + said);
        return;
    }
    Json object{{"number", job.number},
                {"title", job.title},
                {"state", state_word(job.state().state)},
                {"revision", latest.number},
                {"due", text_or_null(latest.due)},
                {"price", text_or_null(latest.price)},
                {"currency", text_or_null(latest.currency)},
                {"demo_data", latest.demo_data},
                {"unconfirmed", job.unconfirmed.size()}};
    object.update(more);
    fmt::print("{}\n", object.dump(2));
}

std::vector<std::string> write_as_sent(int job, const JobRevision& revision,
                                       const std::string& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error || !fs::is_directory(folder, error))
        throw OutsideFault(folder + ": cannot be made a folder" +
                           (error ? ": " + error.message() : ""));
    const std::string base = fmt::format("job-{}-revision-{}", job, revision.number);
    auto files = revision.documents;
    files.push_back({base + "-request.json", revision.request});
    files.push_back({base + "-estimate.json", revision.estimate});
    files.push_back({base + "-rows.json", rows_text(revision.rows)});
    std::vector<std::string> paths;
    for (const SentDocument& file : files) {
        paths.push_back((fs::path(folder) / file.name).string());
        write_file(paths.back(), file.bytes);
    }
    return paths;
}

} // namespace backplate
