#include <algorithm>
#include <array>

#include "pricing/book/rule_reader.h"
#include "pricing/cost/conditions.h"
#include "pricing/cost/drivers.h"

namespace backplate {
namespace {

constexpr std::string_view table = "hours";

struct TimeUnit {
    std::string_view word;
    double hours;
};

constexpr double percent = 1.0 / 100;
constexpr auto time_units =
    std::array{TimeUnit{"h", 1}, TimeUnit{"min", 1.0 / 60}, TimeUnit{"%", percent}};

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

/// Classes and signals that a driver names must be those of the tables.
bool is_driver(const RuleBook& book, const std::string& text) {
    const DriverLookup found = find_driver(text);
    if (found.unknown) return false;
    const Driver& driver = found.driver;
    if (driver.of_signal) return book.find_signal(driver.of);
    const auto known = [&](const std::string& work_class) {
        return std::any_of(book.signals.begin(), book.signals.end(),
                           [&](const Signal& signal) { return signal.work_class == work_class; });
    };
    if (!driver.of.empty()) {
        const auto classes = parts_of(driver.of, " or ");
        return std::all_of(classes.begin(), classes.end(), known);
    }
    return std::all_of(driver.activities.begin(), driver.activities.end(),
                       [&](const std::string& word) { return is_activity(book, word); });
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
    expect(norm.once || norm.hours_per_unit != percent, "count", "each",
           "once where the unit is %: a share counts the hours of all boxes");
    expect(is_driver(book, norm.driver), "driver", norm.driver,
           "something that can be counted, as \"module\", \"point DI\", \"hours: software\"");
    expect(known_condition(book, norm.condition), "condition", norm.condition,
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
        norm.note = row.note();
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
