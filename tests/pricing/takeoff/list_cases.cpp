#include "tests/pricing/takeoff/list_cases.h"

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

ReadList read_list(const std::string& path) {
    ReadList list{read_delimited(path, read_file(path)), {}};
    list.takeoff = take_off(list.read.sheet.rows, list.read.sheet.row_numbers, starter_rules());
    return list;
}

Takeoff take_off_text(const std::string& text) {
    const ReadSheet read = read_delimited("list", text);
    return take_off(read.sheet.rows, read.sheet.row_numbers, starter_rules());
}

} // namespace backplate::tests
