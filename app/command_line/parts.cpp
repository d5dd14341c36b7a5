#include <fmt/format.h>

#include "app/command_line/change_report.h"
#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/stored_data.h"
#include "catalog/exchange/price_csv.h"
#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// A file adds parts and replaces those of the same keys; a folder is the whole price book, so
/// parts that it does not hold end.
int import_parts(const std::string& path, const CommonArguments& common) {
    const bool whole = is_folder(path);
    const auto parts = whole ? read_parts_dir(path) : read_parts_file(path);
    const auto summary = open_library(common.library)
                             .put_parts(parts, whole ? OtherRows::end : OtherRows::stay,
                                        {user_name(), "parts import " + path});
    print_change(summary, "parts", common.json);
    return done;
}

int export_parts(const std::string& directory, const CommonArguments& common) {
    const auto content = load_content(common.library);
    write_parts_dir(content.parts, directory);
    print_export(content.parts.size(), "parts", directory, common.json);
    return done;
}

int check_parts(const CommonArguments& common) {
    const auto content = load_content(common.library);
    const PriceBook book(content.parts, content.prices_issue);
    CheckReport report;
    report.sound = fmt::format("{}, nothing is missing", counted(content.parts.size(), "part"));
    for (const auto& fault : check_book(book)) report.faults.push_back(fault_line(fault));
    std::vector<std::string> signals;
    if (const auto* table = content.rules.find("signals"))
        for (const RuleRow& row : table->rows)
            if (row.active) signals.push_back(row.key);
    for (const auto& remark : book_remarks(book, signals))
        report.remarks.push_back(fault_line(remark));
    return print_check(report, common.json);
}

} // namespace

int run_parts(const TableArguments& arguments, const CommonArguments& common) {
    if (arguments.verb == "import") return import_parts(arguments.path, common);
    if (arguments.verb == "export") return export_parts(arguments.path, common);
    if (arguments.verb == "check") return check_parts(common);
    throw BadInput("parts " + arguments.verb + ": expected import, export or check");
}

} // namespace backplate
