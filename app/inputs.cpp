#include "app/inputs.h"

#include <cstdlib>
#include <filesystem>

#include "app/stored_data.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

std::string variable(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

bool are_there(const DataFolders& folders) {
    return is_folder(folders.rules) && is_folder(folders.prices);
}

DataFolders folders_in(const fs::path& data) {
    return {(data / "rules").string(), (data / "prices").string()};
}

/// share/backplate of the prefix in whose bin/ the program stands, or right beside it.
std::vector<fs::path> installed_data() {
    std::error_code ignored;
    const auto folder = fs::read_symlink("/proc/self/exe", ignored).parent_path();
    return {folder.parent_path() / "share/backplate", folder / "share/backplate"};
}

} // namespace

Inputs load_inputs(const std::string& library) {
    LibraryContent content = load_content(library);
    const RuleBookResult rules = make_rule_book(content.rules);
    if (!rules.book)
        throw OutsideFault((is_starter(library) ? library : library_path(library)) +
                           ": its rules cannot be used: " + fault_text(rules.faults.at(0)));
    return {std::make_shared<const PriceBook>(std::move(content.parts), content.prices_issue),
            rules.book, std::move(content.rules), library};
}

DataFolders data_folders() {
    if (const auto data = variable("BACKPLATE_DATA"); !data.empty()) {
        if (const auto named = folders_in(data); are_there(named)) return named;
        throw OutsideFault("BACKPLATE_DATA names " + data +
                           "; expected a folder that holds rules/ and prices/");
    }
    for (const auto& data : installed_data())
        if (const auto installed = folders_in(data); are_there(installed)) return installed;
    const fs::path tree = BACKPLATE_SOURCE_TREE;
    const DataFolders source{(tree / "catalog/starter/rules").string(),
                             (tree / "demo/prices").string()};
    if (are_there(source)) return source;
    throw OutsideFault("the starter data are not there; expected " +
                       installed_data().front().string() + ", or a folder named by BACKPLATE_DATA");
}

std::string default_library_path() {
    fs::path folder = variable("XDG_DATA_HOME");
    if (!folder.is_absolute()) {
        const auto home = variable("HOME");
        if (home.empty())
            throw OutsideFault("the library has no place; expected XDG_DATA_HOME, HOME or "
                               "--library FILE");
        folder = fs::path(home) / ".local/share";
    }
    return (folder / "backplate/library.backplate").string();
}

const char* program_version() { return BACKPLATE_VERSION; }

} // namespace backplate
