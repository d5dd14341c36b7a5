#include "app/command_line/price_list_report.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/counted.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

constexpr int most_lines = 100;

std::string_view word_of(ListOutcome outcome) {
    return outcome_words[static_cast<std::size_t>(outcome)];
}

std::string price_text(const std::optional<Money>& price, int digits) {
    return price ? price->unit_text(digits) : "no price";
}

std::string change_text(const ListLine& line) {
    if (!line.change) return "";
    return (*line.change > Percent{} ? "  +" : "  ") + line.change->text() + " %";
}

void print_line(const ListLine& line, int digits) {
    const std::string place = line.row > 0 ? fmt::format("row {}", line.row) : "";
    const bool renamed = !line.part.empty() && !line.key.empty() && line.key != line.part;
    const std::string key = line.part.empty() ? line.key : line.part;
    std::string text =
        fmt::format("  {:9} {}{}", place, key, renamed ? " (in the list: " + line.key + ")" : "");
    if (line.outcome == ListOutcome::fresh)
        text += "  " + price_text(line.after, digits);
    else if (line.outcome == ListOutcome::gone || line.outcome == ListOutcome::unchanged ||
             (line.outcome == ListOutcome::discontinued && !line.after))
        text += "  " + price_text(line.before, digits);
    else if (line.outcome != ListOutcome::unclear)
        text += fmt::format("  {} -> {}{}", price_text(line.before, digits),
                            price_text(line.after, digits), change_text(line));
    for (const std::string& reason : line.reasons)
        text += (&reason == &line.reasons.front() ? ": " : "; ") + reason;
    fmt::print("{}\n", text);
}

const char* remark_of(ListOutcome outcome, const ListChoice& choice) {
    if (outcome == ListOutcome::fresh) return " (not added: a list holds no data of them)";
    return outcome == ListOutcome::gone && choice.gone ? " (discontinued from now on)" : "";
}

void print_lines(const PriceListReport& report) {
    for (std::size_t i = 0; i < outcome_words.size(); ++i) {
        const auto outcome = static_cast<ListOutcome>(i);
        const int count = report.comparison.sums[i].lines;
        const bool all = outcome == ListOutcome::suspicious || outcome == ListOutcome::unclear;
        if (count == 0) continue;
        fmt::print("{}{}:\n", word_of(outcome) == "first_price" ? "first price" : word_of(outcome),
                   remark_of(outcome, report.choice));
        int printed = 0;
        for (const ListLine& line : report.comparison.lines)
            if (line.outcome == outcome && (all || printed < most_lines)) {
                print_line(line, report.digits);
                ++printed;
            }
        if (printed < count) fmt::print("  and {} more (--json lists all)\n", count - printed);
    }
}

void print_sums(const PriceListReport& report) {
    fmt::print("{:12} {:>6} {:>14} {:>14} {:>14}\n", "", "lines", "held", "list", "difference");
    for (std::size_t i = 0; i < outcome_words.size(); ++i) {
        const OutcomeSum& sum = report.comparison.sums[i];
        const std::string_view word =
            outcome_words[i] == "first_price" ? "first price" : outcome_words[i];
        fmt::print("{:12} {:>6} {:>14} {:>14} {:>14}\n", word, sum.lines,
                   sum.before.unit_text(report.digits), sum.after.unit_text(report.digits),
                   (sum.after - sum.before).unit_text(report.digits));
    }
    fmt::print("Net prices of one piece each in {}{}.\n", report.currency,
               report.demo_data ? ", demo data" : "");
}

int count_of(const PriceListReport& report, ListOutcome outcome) {
    return report.comparison.sums[static_cast<std::size_t>(outcome)].lines;
}

void print_outcome(const PriceListReport& report) {
    const int suspicious = count_of(report, ListOutcome::suspicious);
    if (suspicious > 0 && !report.choice.suspicious)
        fmt::print("{} suspicious {} left out; --accept-suspicious takes {} with a price of the "
                   "price book's currency\n",
                   suspicious, suspicious == 1 ? "line is" : "lines are",
                   suspicious == 1 ? "it if it comes" : "those that come");
    if (count_of(report, ListOutcome::gone) > 0 && !report.choice.gone)
        fmt::print("{} not in the list, still chosen; --discontinue-gone ends that\n",
                   counted(count_of(report, ListOutcome::gone), "part"));
    if (!report.applied)
        fmt::print("Preview: {} would change, nothing was written\n",
                   counted(report.to_put, "part"));
    else if (report.applied->change_set)
        fmt::print("{} changed; change set {}\n", counted(report.applied->changed, "part"),
                   *report.applied->change_set);
    else
        fmt::print("Nothing to change\n");
}

void print_reading(const PriceListReport& report) {
    std::string columns;
    for (const ListColumn& column : report.list.map.columns)
        columns += fmt::format("{}'{}' as {}", columns.empty() ? "" : ", ", column.heading,
                               column.meaning);
    fmt::print("{}: {}, {}, decimal mark '{}'\n  read: {}\n", report.file,
               counted(report.list.offers.size(), "line"), report.encoding, report.list.map.decimal,
               columns);
    std::string unused;
    for (const std::string& heading : report.list.unused)
        unused += (unused.empty() ? "'" : ", '") + heading + "'";
    if (!unused.empty()) fmt::print("  not read: {}\n", unused);
}

Json amount(const std::optional<Money>& price, int digits) {
    return price ? Json(price->unit_text(digits)) : Json(nullptr);
}

Json line_json(const ListLine& line, int digits) {
    Json object = Json::object();
    object["outcome"] = std::string(word_of(line.outcome));
    object["row"] = line.row > 0 ? Json(line.row) : Json(nullptr);
    object["key"] = line.key;
    object["part"] = line.part.empty() ? Json(nullptr) : Json(line.part);
    object["description"] = line.description;
    object["held"] = amount(line.before, digits);
    object["list"] = amount(line.after, digits);
    object["change_percent"] = line.change ? Json::parse(line.change->text()) : Json(nullptr);
    object["reasons"] = line.reasons;
    object["fields"] = line.fields;
    object["applicable"] = line.applicable;
    return object;
}

Json report_json(const PriceListReport& report) {
    Json object{{"file", report.file},
                {"encoding", report.encoding},
                {"currency", report.currency},
                {"demo_data", report.demo_data},
                {"decimal", report.list.map.decimal},
                {"dates", report.list.map.dates}};
    Json columns = Json::object();
    for (const ListColumn& column : report.list.map.columns)
        columns[column.heading] = column.meaning;
    object["columns"] = std::move(columns);
    object["not_read"] = report.list.unused;
    object["lines"] = Json::array();
    for (const ListLine& line : report.comparison.lines)
        object["lines"].push_back(line_json(line, report.digits));
    for (std::size_t i = 0; i < outcome_words.size(); ++i) {
        const OutcomeSum& sum = report.comparison.sums[i];
        object["sums"][std::string(outcome_words[i])] = {
            {"lines", sum.lines},
            {"held", sum.before.unit_text(report.digits)},
            {"list", sum.after.unit_text(report.digits)},
            {"difference", (sum.after - sum.before).unit_text(report.digits)}};
    }
    object["accepted_suspicious"] = report.choice.suspicious;
    object["discontinued_gone"] = report.choice.gone;
    object["preview"] = !report.applied;
    object["to_change"] = report.to_put;
    object["changed"] = report.applied ? report.applied->changed : 0;
    object["change_set"] = nullptr;
    if (report.applied && report.applied->change_set)
        object["change_set"] = *report.applied->change_set;
    return object;
}

} // namespace

void print_price_list(const PriceListReport& report, bool json) {
    if (json) {
        fmt::print("{}\n", report_json(report).dump(2));
        return;
    }
    print_reading(report);
    print_lines(report);
    print_sums(report);
    print_outcome(report);
}

} // namespace backplate
