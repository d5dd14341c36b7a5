#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/command_line/priced_revision.h"
#include "app/command_line/saved_job.h"
#include "catalog/exchange/estimate_file.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

/// A job as last priced beside today's run of the same request.
struct Repriced {
    const Job& job;
    const JobRevision& today;
    Comparison comparison;
    int digits = 2;

    std::string amount(Money value) const { return value.text(digits); }
    std::string signed_amount(Money value) const {
        return (value > Money{} ? "+" : "") + value.text(digits);
    }
    std::string unit(const std::optional<Money>& value) const {
        return value ? value->unit_text(digits) : "";
    }
};

std::string pieces_text(std::int64_t quantity) { return steps_text(quantity, 0); }
std::string hours_text(std::int64_t quantity) { return steps_text(quantity, Hours::places); }
using QuantityText = std::string (*)(std::int64_t);

Json lines_json(const Repriced& repriced, const std::vector<ComparedLine>& lines,
                QuantityText quantity) {
    Json list = Json::array();
    for (const ComparedLine& line : lines)
        list.push_back({{"change", change_word(line.change)},
                        {"box", text_or_null(line.box)},
                        {"item", line.item},
                        {"quantity_before", Json::parse(quantity(line.quantity_before))},
                        {"quantity_after", Json::parse(quantity(line.quantity_after))},
                        {"unit_before", text_or_null(repriced.unit(line.unit_before))},
                        {"unit_after", text_or_null(repriced.unit(line.unit_after))},
                        {"before", repriced.amount(line.before)},
                        {"after", repriced.amount(line.after)},
                        {"by_quantity", repriced.amount(line.by_quantity)},
                        {"by_price", repriced.amount(line.by_price)},
                        {"difference", repriced.amount(line.difference())}});
    return list;
}

Json side_json(const JobRevision& revision, const std::string& price) {
    return {{"price", price},
            {"issue", {{"prices", revision.prices_issue}, {"rules", revision.rules_issue}}},
            {"demo_data", revision.demo_data}};
}

void print_json(const Repriced& repriced) {
    const Comparison& all = repriced.comparison;
    Json chain = Json::array();
    for (const ComparedStep& step : all.chain)
        chain.push_back({{"name", step.name},
                         {"before", repriced.amount(step.before)},
                         {"after", repriced.amount(step.after)},
                         {"difference", repriced.amount(step.difference())}});
    const Json object{{"format", "backplate-reprice/1"},
                      {"number", repriced.job.number},
                      {"title", repriced.job.title},
                      {"revision", repriced.job.latest().number},
                      {"currency", repriced.today.currency},
                      {"before", side_json(repriced.job.latest(), repriced.amount(all.before))},
                      {"after", side_json(repriced.today, repriced.amount(all.after))},
                      {"difference", repriced.amount(all.after - all.before)},
                      {"bill", lines_json(repriced, all.bill, pieces_text)},
                      {"labour", lines_json(repriced, all.labour, hours_text)},
                      {"chain", chain}};
    fmt::print("{}\n", object.dump(2));
}

std::string now_text(const std::string& before, const std::string& after) {
    return before == after
               ? after
               : (before.empty() ? "-" : before) + " → " + (after.empty() ? "-" : after);
}

void print_lines(const Repriced& repriced, const char* heading,
                 const std::vector<ComparedLine>& lines, QuantityText quantity) {
    fmt::print("\n{}: {} lines changed\n", heading, lines.size());
    for (const ComparedLine& line : lines)
        fmt::print("  {:>12}  {:<18} {}{}: {} × {}\n", repriced.signed_amount(line.difference()),
                   change_word(line.change), line.box.empty() ? "" : line.box + " ", line.text,
                   now_text(quantity(line.quantity_before), quantity(line.quantity_after)),
                   now_text(repriced.unit(line.unit_before), repriced.unit(line.unit_after)));
}

void print_text(const Repriced& repriced) {
    const Comparison& all = repriced.comparison;
    const JobRevision& before = repriced.job.latest();
    fmt::print("job {}, revision {}: {}\n", repriced.job.number, before.number,
               shown_title(repriced.job.title));
    fmt::print("priced {}: {}, prices issue {}, rules issue {}\n", before.saved_at.substr(0, 10),
               price_line(before), before.prices_issue, before.rules_issue);
    fmt::print("today: {}, prices issue {}, rules issue {}\n", price_line(repriced.today),
               repriced.today.prices_issue, repriced.today.rules_issue);
    print_lines(repriced, "Bill of material", all.bill, pieces_text);
    print_lines(repriced, "Labour", all.labour, hours_text);
    fmt::print("\nPrice chain\n");
    for (const ComparedStep& step : all.chain)
        fmt::print("  {:>12}  {:<18} {}\n", repriced.signed_amount(step.difference()), step.name,
                   now_text(repriced.amount(step.before), repriced.amount(step.after)));
    fmt::print("  {:>12}  {:<18} {}\n", repriced.signed_amount(all.sum()), "price",
               now_text(repriced.amount(all.before), repriced.amount(all.after)));
}

int cannot(int number, const std::string& why) {
    fmt::print(stderr, "backplate: job {}: is not compared: {}\n", number, why);
    return not_as_asked;
}

} // namespace

int run_jobs_reprice(const std::string& named, const CommonArguments& common) {
    const int number = job_number(named);
    const Inputs inputs = load_inputs(common.library);
    const Job job = open_jobs(common.library).job(number);
    const std::string shown = fmt::format("job:{}", number);
    const JobRevision today = priced_revision(request_text(shown, inputs), inputs).revision;
    const auto before = read_estimate(shown + ": saved estimate", job.latest().estimate).priced;
    const auto after = read_estimate(shown + ": today's estimate", today.estimate).priced;
    if (!before) return cannot(number, "nothing built it when it was last priced");
    if (!after) return cannot(number, "nothing in today's price book builds it");
    if (before->currency != after->currency)
        return cannot(number, fmt::format("it was priced in {} and is priced in {} today",
                                          before->currency, after->currency));
    const Repriced repriced{job, today, compare(*before, *after),
                            std::max(before->digits, after->digits)};
    common.json ? print_json(repriced) : print_text(repriced);
    return done;
}

} // namespace backplate
