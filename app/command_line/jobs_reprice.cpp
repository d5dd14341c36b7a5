#include <algorithm>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/counted.h"
#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/priced_revision.h"
#include "app/saved_job.h"
#include "catalog/exchange/estimate_file.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

/// A job as it was priced once beside today's run of a request.
struct Repriced {
    const Job& job;
    const JobRevision& today;
    const Job& from; ///< the job itself, or the one that it is set beside
    const JobRevision& before;
    const PriceBook& prices; ///< today's
    Comparison comparison;
    int digits = 2;

    std::string amount(Money value) const { return value.text(digits); }
    std::string signed_amount(Money value) const {
        return (value > Money{} ? "+" : "") + value.text(digits);
    }
    std::string unit(const std::optional<Money>& value) const {
        return value ? value->unit_text(digits) : "";
    }
    /// Of a line that is gone: what the price book says about its part; empty: nothing.
    std::string reason(const ComparedLine& line) const {
        if (line.change != LineChange::gone || line.part.empty()) return "";
        const Part* part = prices.find(line.part);
        if (!part) return "no part of the price book any more";
        if (part->state != "discontinued") return "";
        return "discontinued" + (part->successor.empty() ? ", no successor named"
                                                         : ", successor " + part->successor);
    }
};

std::string pieces_text(std::int64_t quantity) { return steps_text(quantity, 0); }
std::string hours_text(std::int64_t quantity) { return steps_text(quantity, Hours::places); }

std::string hours_words(std::int64_t quantity) { return hours_text(quantity) + " h"; }

/// A word of the data in a sentence.
std::string plain(std::string text) {
    std::ranges::replace(text, '_', ' ');
    return text;
}

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
                        {"difference", repriced.amount(line.difference())},
                        {"reason", text_or_null(repriced.reason(line))}});
    return list;
}

Json side_json(const Job& job, const JobRevision& revision, const std::string& price) {
    return {{"job", job.number},
            {"revision", revision.number},
            {"price", price},
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
    const Json object{
        {"format", "backplate-reprice/1"},
        {"number", repriced.job.number},
        {"title", repriced.job.title},
        {"revision", repriced.job.latest().number},
        {"currency", repriced.today.currency},
        {"before", side_json(repriced.from, repriced.before, repriced.amount(all.before))},
        {"after", side_json(repriced.job, repriced.today, repriced.amount(all.after))},
        {"difference", repriced.amount(all.after - all.before)},
        {"bill", lines_json(repriced, all.bill, pieces_text)},
        {"labour", lines_json(repriced, all.labour, hours_text)},
        {"chain", chain}};
    fmt::print("{}\n", object.dump(2));
}

/// "2 × 70.50", "3.800 h × 52.00"; a lump sum has no unit.
std::string side_text(const std::string& quantity, const std::string& unit) {
    return unit.empty() ? quantity : quantity + " × " + unit;
}

std::string sides_text(const Repriced& repriced, const ComparedLine& line, QuantityText quantity) {
    const auto before = side_text(quantity(line.quantity_before), repriced.unit(line.unit_before));
    const auto after = side_text(quantity(line.quantity_after), repriced.unit(line.unit_after));
    if (line.change == LineChange::added) return after;
    return line.change == LineChange::gone ? before : before + " → " + after;
}

void print_row(const std::string& before, const std::string& after, const std::string& difference,
               const std::string& text) {
    fmt::print("  {:>11}  {:>11}  {:>11}  {}\n", before, after, difference, text);
}

void print_lines(const Repriced& repriced, const char* heading,
                 const std::vector<ComparedLine>& lines, QuantityText quantity) {
    Money before, after;
    fmt::print("\n{}: {} changed\n", heading, counted(lines.size(), "line"));
    for (const ComparedLine& line : lines) {
        before += line.before;
        after += line.after;
        const std::string reason = repriced.reason(line);
        print_row(repriced.amount(line.before), repriced.amount(line.after),
                  repriced.signed_amount(line.difference()),
                  fmt::format("{}: {}: {}{}", change_word(line.change), plain(line.text),
                              sides_text(repriced, line, quantity),
                              reason.empty() ? "" : " (" + reason + ")"));
    }
    print_row(repriced.amount(before), repriced.amount(after),
              repriced.signed_amount(after - before), "sum of the lines that changed");
}

/// The day of the last state that the revision came to before an outcome, with its word.
std::string priced_text(const Job& job, const JobRevision& revision) {
    std::string text = revision.saved_at.substr(0, 10);
    for (const StateChange& change : job.states)
        if (change.revision == revision.number && change.state <= JobState::sent)
            text = std::string(state_word(change.state)) + " " + change.day.text();
    return text;
}

void print_text(const Repriced& repriced) {
    const Comparison& all = repriced.comparison;
    const auto issues = [](const JobRevision& revision) {
        return fmt::format("{}, prices issue {}, rules issue {}", price_line(revision),
                           revision.prices_issue, revision.rules_issue);
    };
    fmt::print("before: job {}, revision {}, {}: {}; {}\n", repriced.from.number,
               repriced.before.number, priced_text(repriced.from, repriced.before),
               shown_title(repriced.from.title), issues(repriced.before));
    fmt::print("today:  job {}, revision {}: {}; {}\n\n", repriced.job.number,
               repriced.job.latest().number, shown_title(repriced.job.title),
               issues(repriced.today));
    print_row("before", "today", "difference", "");
    print_lines(repriced, "Bill of material", all.bill, pieces_text);
    print_lines(repriced, "Labour", all.labour, hours_words);
    fmt::print("\nPrice chain\n");
    for (const ComparedStep& step : all.chain)
        if (!step.before.is_zero() || !step.after.is_zero())
            print_row(repriced.amount(step.before), repriced.amount(step.after),
                      repriced.signed_amount(step.difference()), step.name);
    print_row(repriced.amount(all.before), repriced.amount(all.after),
              repriced.signed_amount(all.sum()), "price: the differences of all lines above");
}

int cannot(int number, const std::string& why) {
    fmt::print(stderr, "backplate: job {}: is not compared: {}\n", number, why);
    return not_as_asked;
}

} // namespace

int run_jobs_reprice(const RepriceJob& arguments, const CommonArguments& common) {
    const int number = job_number(arguments.number);
    const Inputs inputs = load_inputs(common.library);
    const Library library = open_jobs(common.library);
    const Job job = library.job(number);
    const auto reference = arguments.against.empty() ? JobReference{number, std::nullopt}
                                                     : job_named(arguments.against);
    const Job from = library.job(reference.number);
    const JobRevision& earlier = revision_named(from, reference);
    const std::string shown = fmt::format("job:{}", number);
    const JobRevision today = priced_revision(request_text(shown, inputs), inputs).revision;
    const auto after = read_estimate(shown + ": today's estimate", today.estimate);
    const auto record =
        read_estimate(fmt::format("job:{}: saved estimate", from.number), earlier.estimate);
    const auto before = in_boxes_of(record, after).priced;
    if (!before)
        return cannot(number, fmt::format("nothing built job {} when it was priced", from.number));
    if (!after.priced) return cannot(number, "nothing in today's price book builds it");
    if (before->currency != after.priced->currency)
        return cannot(number, fmt::format("job {} was priced in {}, today it is {}", from.number,
                                          before->currency, after.priced->currency));
    const Repriced repriced{job,
                            today,
                            from,
                            earlier,
                            *inputs.prices,
                            compare(*before, *after.priced),
                            std::max(before->digits, after.priced->digits)};
    common.json ? print_json(repriced) : print_text(repriced);
    return done;
}

} // namespace backplate
