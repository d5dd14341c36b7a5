#include "pricing/takeoff/new_spellings.h"

#include <algorithm>
#include <array>

#include "pricing/takeoff/plain_text.h"

namespace backplate {
namespace {

/// What a type text must say to be read as a signal.
struct Meanings {
    std::string_view signal;
    std::array<std::string_view, 2> said; ///< the second may be empty
};

constexpr auto meanings = std::array{
    Meanings{"DI", {"DI", ""}},
    Meanings{"DI_NPN", {"DI", "npn"}},
    Meanings{"DI_AC", {"DI", "mains"}},
    Meanings{"DI_NAMUR", {"DI", "namur"}},
    Meanings{"DI_SAFE", {"DI", "safety"}},
    Meanings{"DO", {"DO", ""}},
    Meanings{"DO_RELAY", {"DO", "relay"}},
    Meanings{"DO_SAFE", {"DO", "safety"}},
    Meanings{"AI_MA", {"AI", "milliamps"}},
    Meanings{"AI_V", {"AI", "volts"}},
    Meanings{"AI_R", {"AI", "AI_R"}},
    Meanings{"AO_MA", {"AO", "milliamps"}},
    Meanings{"AO_V", {"AO", "volts"}},
    Meanings{"RTD", {"RTD", ""}},
    Meanings{"TC", {"TC", ""}},
    Meanings{"CNT", {"CNT", ""}},
    Meanings{"ENC", {"ENC", ""}},
    Meanings{"PWM", {"PWM", ""}},
    Meanings{"IO_LINK", {"IO_LINK", ""}},
    Meanings{"SERIAL", {"SERIAL", ""}},
};

/// Adds "MEANING N" with the text where no active row says the same.
void add_row(RuleTable& table, const std::string& meaning, const std::string& text,
             const std::string& source) {
    std::size_t of_meaning = 0;
    auto place = table.rows.end();
    for (auto row = table.rows.begin(); row != table.rows.end(); ++row) {
        if (row->cells[0] != meaning) continue;
        if (row->active && squeeze(row->cells[1]).text == squeeze(text).text) return;
        ++of_meaning;
        place = row + 1;
    }
    std::string key;
    do key = meaning + " " + std::to_string(++of_meaning);
    while (std::ranges::find(table.rows, key, &RuleRow::key) != table.rows.end());
    table.rows.insert(place, {key, {meaning, text}, source, "as answered", "", true});
}

void add_type(RuleTable& table, const ListAnswer& answer, const std::string& source) {
    if (answer.does != ListAnswer::Does::signals || answer.row || answer.type.empty() ||
        answer.signals.size() != 1 || answer.signals.begin()->second != 1)
        return;
    const auto found =
        std::ranges::find(meanings, answer.signals.begin()->first, &Meanings::signal);
    if (found == meanings.end()) return;
    for (const auto said : found->said)
        if (!said.empty()) add_row(table, std::string(said), answer.type, source);
}

} // namespace

RuleTables with_new_spellings(RuleTables rules, const ListAnswers& answers,
                              const std::string& source) {
    for (const ColumnChoice& choice : answers.table.columns)
        if (choice.role != "ignore" && !choice.column.starts_with("column "))
            add_row(rules.table("headings"), choice.role, choice.column, source);
    for (const ListAnswer& answer : answers.answers)
        if (answer.reason == "type_unknown") add_type(rules.table("spellings"), answer, source);
    return rules;
}

} // namespace backplate
