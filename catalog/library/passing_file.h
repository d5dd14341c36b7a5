#pragma once

#include <filesystem>
#include <string>
#include <system_error>
#include <utility>

namespace backplate {

/// A file that is gone at the end, under this name at least.
class PassingFile {
public:
    explicit PassingFile(std::string path) : path_(std::move(path)) { remove(); }
    ~PassingFile() { remove(); }
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;
    const std::string& path() const { return path_; }

private:
    void remove() const {
        std::error_code ignored;
        std::filesystem::remove(path_, ignored);
    }
    std::string path_;
};

} // namespace backplate
