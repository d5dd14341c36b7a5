#include <fmt/format.h>

#include "app/command_line/change_report.h"
#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/stored_data.h"
#include "catalog/exchange/rules_csv.h"
#include "pricing/book/rule_book.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// The rules with what the path holds; only such as make a rule book come into a library.
RuleTables changed_rules(const RuleTables& current, const std::string& path) {
    RuleTables changed = is_folder(path) ? read_rules_dir(path) : with_rules_file(current, path);
    const auto faults = make_rule_book(changed).faults;
    if (faults.empty()) return changed;
    throw BadInput(fmt::format("{}: {}, the first: {}", path, counted(faults.size(), "fault"),
                               fault_text(faults.front())));
}

/// A file replaces the tables that it names, a folder all of them.
int import_rules(const std::string& path, const CommonArguments& common) {
    const auto summary =
        open_library(common.library)
            .change_rules([&](const RuleTables& current) { return changed_rules(current, path); },
                          {user_name(), "rules import " + path});
    print_change(summary, "rows", common.json);
    return done;
}

std::size_t count_rows(const RuleTables& rules) {
    std::size_t count = 0;
    for (const RuleTable& table : rules.tables) count += table.rows.size();
    return count;
}

int export_rules(const std::string& directory, const CommonArguments& common) {
    const auto content = load_content(common.library);
    write_rules_dir(content.rules, directory);
    print_export(count_rows(content.rules), "rows", directory, common.json);
    return done;
}

int check_rule_rows(const CommonArguments& common) {
    const auto content = load_content(common.library);
    CheckReport report;
    report.sound =
        fmt::format("{}, every one within its range", counted(count_rows(content.rules), "row"));
    for (const RuleFault& fault : make_rule_book(content.rules).faults)
        report.faults.push_back(fault_text(fault));
    return print_check(report, common.json);
}

} // namespace

int run_rules(const TableArguments& arguments, const CommonArguments& common) {
    if (arguments.verb == "import") return import_rules(arguments.path, common);
    if (arguments.verb == "export") return export_rules(arguments.path, common);
    if (arguments.verb == "check") return check_rule_rows(common);
    throw BadInput("rules " + arguments.verb + ": expected import, export or check");
}

} // namespace backplate
