#include "app/stored_data.h"

#include <cstdlib>
#include <filesystem>

#include "app/inputs.h"
#include "catalog/exchange/price_csv.h"
#include "catalog/exchange/rules_csv.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

LibraryContent starter_content() {
    const DataFolders folders = data_folders();
    LibraryContent content;
    content.parts = read_parts_dir(folders.prices);
    content.rules = read_rules_dir(folders.rules);
    return content;
}

/// Opens the file, made on first use.
Library open_or_make(const std::string& library) {
    const std::string path = library_path(library);
    std::error_code ignored;
    if (std::filesystem::symlink_status(path, ignored).type() ==
        std::filesystem::file_type::not_found)
        Library::make(path, starter_content(), {user_name(), "starter data"});
    return Library(path);
}

} // namespace

bool is_starter(const std::string& library) { return library == ":starter:"; }

std::string library_path(const std::string& library) {
    return library.empty() ? default_library_path() : library;
}

Library open_library(const std::string& library) {
    if (is_starter(library))
        throw BadInput("--library :starter: is read-only; expected a library file");
    return open_or_make(library);
}

LibraryContent load_content(const std::string& library) {
    return is_starter(library) ? starter_content() : open_or_make(library).read();
}

std::string book_currency(const RuleTables& rules) {
    if (const RuleTable* table = rules.find("price_policy"))
        for (const RuleRow& row : table->rows)
            if (row.key == "currency" && !row.cells.empty() && !row.cells[0].empty())
                return row.cells[0];
    return "currency";
}

int currency_digits(const RuleTables& rules, const std::string& currency) {
    if (const RuleTable* table = rules.find("currencies"))
        for (const RuleRow& row : table->rows)
            if (row.active && row.key == currency && !row.cells.empty() &&
                row.cells[0].size() == 1 && row.cells[0][0] >= '0' && row.cells[0][0] <= '4')
                return row.cells[0][0] - '0';
    return 2;
}

std::string user_name() {
    for (const char* variable : {"LOGNAME", "USER"})
        if (const char* name = std::getenv(variable); name && *name) return name;
    return "unknown";
}

bool is_folder(const std::string& path) {
    std::error_code ignored;
    return std::filesystem::is_directory(path, ignored);
}

std::string fault_text(const RuleFault& fault) {
    std::string text = "table " + fault.table;
    if (!fault.row.empty()) text += ", row " + fault.row;
    if (!fault.column.empty()) text += ", column " + fault.column;
    return text + ": " + fault.text;
}

} // namespace backplate
