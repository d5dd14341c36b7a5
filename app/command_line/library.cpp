#include "app/command_line/change_report.h"
#include "app/command_line/commands.h"
#include "app/stored_data.h"
#include "catalog/library/check_library.h"
#include "pricing/values/faults.h"

namespace backplate {

int run_library(const TableArguments& arguments, const CommonArguments& common) {
    if (arguments.verb != "check") throw BadInput("library " + arguments.verb + ": expected check");
    if (is_starter(common.library))
        throw BadInput("--library :starter: is no file; expected a library file");
    const std::string path = library_path(common.library);
    return print_check({path + ": sound", check_library(path), {}}, common.json);
}

} // namespace backplate
