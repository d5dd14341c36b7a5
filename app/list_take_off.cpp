#include "app/list_take_off.h"

#include <algorithm>

#include "app/stored_data.h"
#include "catalog/cells/list_file.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/list_answers_json.h"
#include "catalog/library/list_memory.h"
#include "pricing/takeoff/new_spellings.h"

namespace backplate {
namespace {

std::string sheet_names(const ListFile& file) {
    std::string names;
    for (const ListSheet& sheet : file.sheets)
        names += (names.empty() ? "" : ", ") + (sheet.name.empty() ? "none (text)" : sheet.name);
    return names;
}

bool same_question(const ListAnswer& a, const ListAnswer& b) {
    return a.reason == b.reason && a.type == b.type;
}

/// The earlier answers with the new ones, which count more.
ListAnswers merged(ListAnswers earlier, const ListAnswers& now) {
    if (!now.table.columns.empty()) earlier.table.columns = now.table.columns;
    earlier.table.heading_row.reset();
    for (const ListAnswer& answer : now.answers) {
        if (answer.row || !answer.sheet.empty()) continue;
        std::erase_if(earlier.answers,
                      [&](const ListAnswer& other) { return same_question(answer, other); });
        earlier.answers.push_back(answer);
    }
    return earlier;
}

} // namespace

TakenList take_list(const std::string& path, const RuleBook& rules, const TakeoffWish& wish) {
    const ListHints hints{wish.answers.encoding, wish.answers.delimiter, list_words(rules),
                          wish.stop};
    ListFile file = read_list_file(path, read_file(path), hints);
    if (!wish.sheet.empty() &&
        std::ranges::find(file.sheets, wish.sheet, &ListSheet::name) == file.sheets.end())
        throw BadInput(path + ": has no sheet " + wish.sheet + "; expected " + sheet_names(file));
    TakenList list{file.reading, {}, take_off(file, rules, wish), {}};
    if (!list.takeoff.holds_rows())
        throw RefusedList("nothing_found", path + ": holds no row of points; expected a heading "
                                                  "and rows below it");
    list.assemblies = propose_assemblies(list.takeoff, rules);
    list.sheets = std::move(file.sheets);
    return list;
}

ListAnswers remembered_for(const std::string& library, const std::string& client,
                           const RuleBook& rules) {
    if (client.empty() || is_starter(library)) return {};
    const auto text = remembered_answers(library_path(library), client);
    return text ? read_list_answers("answers remembered for " + client, *text, rules)
                : ListAnswers{};
}

void offer_answers(Takeoff& takeoff, const ListAnswers& remembered) {
    for (OpenQuestion& question : takeoff.ask) {
        const ListAnswer* answer =
            remembered.find(question.reason, question.sheet, question.row, question.type);
        if (answer) question.last_time = answer_text(*answer);
    }
}

int remember_for(const std::string& library, const std::string& client, const ListAnswers& answers,
                 const RuleBook& rules) {
    if (is_starter(library))
        throw BadInput("--remember: the starter data is not changed; expected a library file");
    Library file = open_library(library);
    const ListAnswers kept = merged(remembered_for(library, client, rules), answers);
    remember_answers(library_path(library), client, list_answers_text(kept), user_name());
    const std::string source = "answer about a list of " + client;
    return file
        .change_rules(
            [&](const RuleTables& current) -> RuleTables {
                return with_new_spellings(current, answers, source);
            },
            {user_name(), "takeoff: " + source})
        .added;
}

} // namespace backplate
