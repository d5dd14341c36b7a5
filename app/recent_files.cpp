#include "app/recent_files.h"

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "catalog/cells/table.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_files = 9;

std::vector<std::string> listed(const std::string& list) {
    std::vector<std::string> files;
    try {
        std::istringstream lines(read_file(list));
        for (std::string line; std::getline(lines, line);)
            if (!line.empty()) files.push_back(line);
    } catch (const std::exception&) { // none yet
    }
    return files;
}

} // namespace

std::vector<std::string> recent_files(const std::string& list) {
    if (list.empty()) return {};
    std::vector<std::string> files = listed(list);
    std::erase_if(files, [](const std::string& file) {
        std::error_code none;
        return !fs::is_regular_file(file, none);
    });
    files.resize(std::min(files.size(), most_files));
    return files;
}

void remember_file(const std::string& list, const std::string& file) {
    if (list.empty() || file.empty()) return;
    try {
        const std::string whole = fs::absolute(file).lexically_normal().string();
        std::vector<std::string> files = recent_files(list);
        std::erase(files, whole);
        files.insert(files.begin(), whole);
        std::string text;
        for (const std::string& each : files) text += each + "\n";
        fs::create_directories(fs::path(list).parent_path());
        write_file(list, text);
    } catch (const std::exception&) { // a convenience, never in the way
    }
}

} // namespace backplate
