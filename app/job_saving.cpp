#include "app/job_saving.h"

#include <algorithm>

#include <fmt/format.h>

#include "catalog/exchange/estimate_file.h"
#include "catalog/exchange/request_json.h"
#include "pricing/job/inherited.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// A title by hand, or that of the request as long as nobody gave another one.
std::string title_of(const Job& job, const std::optional<std::string>& title,
                     const Estimate& estimate) {
    if (title) return *title;
    const auto before = read_estimate("the saved estimate", job.latest().estimate);
    return job.title == before.title ? estimate.request.title : job.title;
}

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

} // namespace

bool holds_words(const JobHead& job, const std::vector<std::string>& words) {
    const std::string all = lower(fmt::format("{}\n{}\n{}\n{}\n{}", job.number, job.title,
                                              state_word(job.state), job.due, job.price));
    return std::ranges::all_of(
        words, [&](const std::string& word) { return all.find(lower(word)) != std::string::npos; });
}

std::shared_ptr<const OpenJob> open_job(const std::string& library, const JobReference& named) {
    const Library opened = open_jobs(library);
    Job job = opened.job(named.number);
    if (revision_named(job, named).number != job.latest().number)
        throw BadInput(
            fmt::format("job:{}/{}: stays as it is; expected job:{}, whose last revision "
                        "can be worked on",
                        named.number, *named.revision, named.number));
    SavedAs saved = saved_as(opened, job, job.latest());
    return std::make_shared<const OpenJob>(OpenJob{std::move(job), std::move(saved)});
}

std::optional<Inherited> inherited_by(const Job& job, const std::vector<InheritedValue>& now) {
    const auto open = still_unconfirmed(job, now);
    if (!job.copied_from || open.empty()) return std::nullopt;
    return inherited_from(job.copied_from->job, open);
}

Job save_into_job(Library& library, int number, const PricedRevision& priced,
                  const std::vector<InheritedValue>& now, const std::set<std::string>& confirmed,
                  const std::optional<std::string>& title, const Stamp& when) {
    return library.change_job(number, [&](Job& changed) {
        const std::string named = title_of(changed, title, priced.estimate);
        save_work(changed, priced.revision, now, when);
        std::erase_if(changed.unconfirmed,
                      [&](const InheritedValue& value) { return confirmed.contains(value.field); });
        changed.title = named;
    });
}

Job copy_as_job(Library& library, const Inputs& inputs, int number,
                const std::optional<std::string>& title) {
    const Job from = library.job(number);
    const std::string shown = fmt::format("job:{}", number);
    const Node request = template_request(parse_json(shown, from.latest().request).root);
    auto inherited = inherited_values(request);
    const PricedRevision priced = priced_revision(
        {shown, json_text(request), inherited_from(number, inherited), copy_to_be(from)}, inputs);
    Job job = copy_of(from, priced.revision, std::move(inherited), stamp());
    if (title) job.title = *title;
    return library.add_job(std::move(job));
}

} // namespace backplate
