#include "app/recent_files.h"

#include <algorithm>
#include <filesystem>
#include <sstream>

#include "catalog/cells/table.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_files = 9;
constexpr const char* parts_library = " in "; // between a job and its library

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

bool is_job(const std::string& entry) { return entry.starts_with("job:"); }

} // namespace

std::string recent_job(const std::string& place, const std::string& library) {
    return place + parts_library + fs::absolute(library).lexically_normal().string();
}

std::optional<std::string> job_of_recent(const std::string& entry, const std::string& library) {
    const std::string place = entry.substr(0, entry.find(parts_library));
    if (!is_job(entry) || recent_job(place, library) != entry) return std::nullopt;
    return place;
}

std::vector<std::string> recent_files(const std::string& list) {
    if (list.empty()) return {};
    std::vector<std::string> files = listed(list);
    std::erase_if(files, [](const std::string& file) {
        std::error_code none;
        return !is_job(file) && !fs::is_regular_file(file, none);
    });
    files.resize(std::min(files.size(), most_files));
    return files;
}

void remember_file(const std::string& list, const std::string& file) {
    if (list.empty() || file.empty()) return;
    try {
        const std::string whole =
            is_job(file) ? file : fs::absolute(file).lexically_normal().string();
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
