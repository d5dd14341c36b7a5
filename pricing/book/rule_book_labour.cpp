#include <algorithm>
#include <array>

#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

constexpr std::string_view table = "hours";

/// What a norm may count; further drivers name a signal or the hours of other activities.
constexpr std::array<std::string_view, 47> drivers{"job",
                                                   "box",
                                                   "bill line",
                                                   "controller",
                                                   "enclosure wall",
                                                   "enclosure floor",
                                                   "cut-out round",
                                                   "cut-out rectangular",
                                                   "cut-out gland",
                                                   "rail row",
                                                   "device",
                                                   "device small",
                                                   "device large",
                                                   "device on plate",
                                                   "door device",
                                                   "operator panel",
                                                   "module",
                                                   "module or controller",
                                                   "terminal",
                                                   "internal wire",
                                                   "shield",
                                                   "network lead",
                                                   "point",
                                                   "digital point",
                                                   "digital or special point",
                                                   "analogue point",
                                                   "analogue or temperature point",
                                                   "temperature point",
                                                   "special point",
                                                   "safety point",
                                                   "loop",
                                                   "screen",
                                                   "network",
                                                   "network device",
                                                   "soft point",
                                                   "sheet new",
                                                   "sheet typical",
                                                   "sheet generated",
                                                   "channel tested",
                                                   "channel digital tested",
                                                   "channel analogue tested",
                                                   "channel temperature tested",
                                                   "channel special tested",
                                                   "channel safety tested",
                                                   "assembly minute",
                                                   "hours: all other",
                                                   "hours: all other classes"};

struct TimeUnit {
    std::string_view word;
    double hours;
};

constexpr auto time_units =
    std::array{TimeUnit{"h", 1}, TimeUnit{"min", 1.0 / 60}, TimeUnit{"%", 1.0 / 100}};

std::string_view first_word(std::string_view text) { return text.substr(0, text.find(' ')); }

/// Parts of `text` between `mark`.
std::vector<std::string> parts_of(std::string_view text, std::string_view mark) {
    std::vector<std::string> parts;
    for (std::size_t start = 0;;) {
        const std::size_t end = text.find(mark, start);
        parts.emplace_back(text.substr(start, end - start));
        if (end == std::string_view::npos) return parts;
        start = end + mark.size();
    }
}

bool has_word(const RuleBook& book, std::string_view key, std::string_view word) {
    return std::any_of(book.words.begin(), book.words.end(),
                       [&](const WordRow& row) { return row.key == key && row.word == word; });
}

bool is_activity(const RuleBook& book, std::string_view word) {
    return has_word(book, "#labour[].activity", word);
}

bool is_driver(const RuleBook& book, const std::string& driver) {
    if (std::find(drivers.begin(), drivers.end(), driver) != drivers.end()) return true;
    for (const std::string_view prefix : {"point ", "module "})
        if (driver.starts_with(prefix)) return book.find_signal(driver.substr(prefix.size()));
    constexpr std::string_view of_hours = "hours: ";
    if (!driver.starts_with(of_hours)) return false;
    const std::vector<std::string> words = parts_of(driver.substr(of_hours.size()), " ");
    return std::all_of(words.begin(), words.end(),
                       [&](const std::string& word) { return is_activity(book, word); });
}

/// What a condition may look at: the scope of a request and two facts of the job.
bool is_fact(const RuleBook& book, std::string_view key) {
    if (key == "practice" || key == "approvals") return true;
    return key.starts_with("scope.") &&
           std::any_of(book.defaults.begin(), book.defaults.end(),
                       [&](const DefaultRow& row) { return row.key == key; });
}

bool is_term(const RuleBook& book, std::string_view term) {
    const std::size_t end = std::min(term.find_first_of("=!>"), term.size());
    if (!is_fact(book, term.substr(0, end))) return false;
    std::string_view rest = term.substr(end);
    if (rest.starts_with("!=")) rest.remove_prefix(1);
    return rest.size() > 1 && rest.front() != '!' && rest.find(' ') == std::string_view::npos;
}

bool is_condition(const RuleBook& book, const std::string& text) {
    if (text == "always") return true;
    const std::vector<std::string> terms = parts_of(text, " and ");
    return std::all_of(terms.begin(), terms.end(),
                       [&](const std::string& term) { return is_term(book, term); });
}

/// The words of one norm, each against what the engine can count, pay and judge.
void check_norm(RuleReader& reader, const RuleBook& book, const LabourNorm& norm,
                const std::string& row) {
    const auto expect = [&](bool right, std::string_view column, const std::string& cell,
                            const std::string& wanted) {
        if (!right) reader.fault(table, row, column, "'" + cell + "', expected " + wanted);
    };
    expect(is_activity(book, norm.activity), "activity", norm.activity,
           "a word of the table words, key #labour[].activity");
    expect(has_word(book, "#labour[].class", norm.work_class), "class", norm.work_class,
           "a word of the table words, key #labour[].class");
    expect(book.rates.contains(norm.work_class), "class", norm.work_class,
           "a class with a row in the table rates");
    expect(is_driver(book, norm.driver), "driver", norm.driver,
           "something that can be counted, as \"module\", \"point DI\", \"hours: software\"");
    expect(is_condition(book, norm.condition), "condition", norm.condition,
           "always, or terms as scope.software=included, practice!=iec, approvals>0 "
           "joined by \" and \"");
}

} // namespace

void read_labour(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows(table)) {
        LabourNorm norm;
        norm.rule = row.value_rule();
        norm.activity = row.cell("activity");
        norm.work_class = row.cell("class");
        norm.driver = row.cell("driver");
        norm.once = row.cell("count") == "once";
        norm.learning = row.flag("learning");
        norm.condition = row.cell("condition");
        const std::string unit = row.cell("unit");
        const auto found =
            std::find_if(time_units.begin(), time_units.end(),
                         [&](const TimeUnit& each) { return each.word == first_word(unit); });
        if (found == time_units.end())
            reader.fault(table, row.key(), "unit", "'" + unit + "', expected h, min or % first");
        else
            norm.hours_per_unit = found->hours;
        check_norm(reader, book, norm, row.key());
        book.labour.push_back(std::move(norm));
    }
    if (book.labour.empty())
        reader.fault(table, "", "", "has no active row, expected at least one norm");
}

} // namespace backplate
