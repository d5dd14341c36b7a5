#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/change_report.h"
#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/library_changes.h"
#include "app/stored_data.h"
#include "catalog/library/backup_library.h"
#include "catalog/library/check_library.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

int backup(const std::string& library, const std::string& file, bool json) {
    const auto bytes = backup_library(library, file);
    if (json) {
        const nlohmann::ordered_json result{
            {"library", library}, {"backup", file}, {"bytes", bytes}};
        fmt::print("{}\n", result.dump(2));
    } else {
        fmt::print("{}: backup of {}, {}\n", file, library, counted(bytes, "byte"));
    }
    return done;
}

} // namespace

int run_library(const TableArguments& arguments, const CommonArguments& common) {
    if (is_starter(common.library))
        throw BadInput("--library :starter: is no file; expected a library file");
    const std::string path = library_path(common.library);
    if (arguments.verb == "backup") return backup(path, arguments.path, common.json);
    if (arguments.verb == "check")
        return print_check({path + ": sound", check_library(path), {}}, common.json);
    if (arguments.verb == "changes") return print_change_sets(path, common.json);
    if (arguments.verb == "undo") return undo_change(path, arguments.path, common.json);
    throw BadInput("library " + arguments.verb + ": expected check, backup, changes or undo");
}

} // namespace backplate
