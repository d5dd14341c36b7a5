#include "tests/pricing/takeoff/list_cases.h"

#include "catalog/cells/table.h"

namespace backplate::tests {
namespace {

const std::string rules_folder = BACKPLATE_SOURCE_TREE "/catalog/starter/rules/";

Sheet rule_rows(const std::string& table) {
    Sheet sheet = read_csv(table, read_file(rules_folder + table + ".csv"));
    sheet.rows.erase(sheet.rows.begin());
    return sheet;
}

std::vector<Spelling> spellings(const std::string& table) {
    std::vector<Spelling> rows;
    for (const auto& cells : rule_rows(table).rows) rows.push_back({cells[0], cells[1], cells[2]});
    return rows;
}

RuleBook read_rules() {
    RuleBook rules;
    rules.headings = spellings("headings");
    rules.spellings = spellings("spellings");
    for (const auto& cells : rule_rows("words").rows)
        rules.words.push_back({cells[1], cells[2], cells[4]});
    return rules;
}

} // namespace

const RuleBook& starter_rules() {
    static const RuleBook rules = read_rules();
    return rules;
}

ReadList read_list(const std::string& path, const TakeoffWish& wish) {
    ListHints hints;
    hints.words = list_words(starter_rules());
    ReadList list{read_list_file(path, read_file(path), hints), {}};
    list.takeoff = take_off(list.file, starter_rules(), wish);
    return list;
}

Takeoff take_off_text(const std::string& text, const TakeoffWish& wish) {
    return take_off(read_list_file("list", text, {}), starter_rules(), wish);
}

} // namespace backplate::tests
