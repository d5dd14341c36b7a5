#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace backplate {

/// A zip archive in memory, read only. Members are looked up by name and never become paths.
class ZipArchive {
public:
    /// `bytes` must outlive the archive. Throws RefusedList damaged_archive naming `path`.
    ZipArchive(std::string path, std::string_view bytes);
    ~ZipArchive();
    ZipArchive(const ZipArchive&) = delete;
    ZipArchive& operator=(const ZipArchive&) = delete;

    bool has(const std::string& member) const;
    const std::string& path() const { return path_; }

    /// Hands the member over in blocks as it is inflated. What is really inflated counts, over all
    /// members. Throws RefusedList: damaged_archive (missing, cut, wrong sum), password, too_large.
    void read(const std::string& member, const std::function<void(std::string_view)>& take);

private:
    struct Handle;
    std::string path_;
    std::unique_ptr<Handle> handle_;
    std::size_t unpacked_ = 0;
};

} // namespace backplate
