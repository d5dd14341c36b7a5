#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "catalog/cells/table.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

constexpr off_t most_bytes = off_t{64} << 20;

[[noreturn]] void fail(const std::string& path, const std::string& what, int code) {
    throw OutsideFault(path + ": cannot be " + what + ": " + std::generic_category().message(code));
}

/// An open file; closed at the end of the block.
class OpenFile {
public:
    explicit OpenFile(int descriptor) : descriptor_(descriptor) {}
    ~OpenFile() { close(); }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;

    int get() const { return descriptor_; }
    bool close() {
        const int descriptor = std::exchange(descriptor_, -1);
        return descriptor < 0 || ::close(descriptor) == 0;
    }

private:
    int descriptor_;
};

/// A new file beside the target; removed again unless it took the target's place.
class NewFile {
public:
    explicit NewFile(const fs::path& target) : path_(target) {
        path_ += ".new-" + std::to_string(::getpid());
    }
    ~NewFile() {
        if (!kept_) ::unlink(path_.c_str());
    }
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    const char* name() const { return path_.c_str(); }
    bool replace(const fs::path& target) {
        kept_ = ::rename(path_.c_str(), target.c_str()) == 0;
        return kept_;
    }

private:
    fs::path path_;
    bool kept_ = false;
};

bool write_all(int descriptor, const std::string& bytes) {
    std::size_t done = 0;
    while (done < bytes.size()) {
        const auto count = ::write(descriptor, bytes.data() + done, bytes.size() - done);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return false;
        done += static_cast<std::size_t>(count);
    }
    return ::fsync(descriptor) == 0;
}

/// The file behind links, so that a link stays one.
fs::path target_of(const std::string& path) {
    std::error_code ignored;
    const fs::path target = fs::weakly_canonical(path, ignored);
    return target.empty() ? fs::path(path) : target;
}

} // namespace

std::string read_file(const std::string& path) {
    const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.get() < 0 && (errno == ENOENT || errno == ENOTDIR))
        throw BadInput(path + ": does not exist; expected a file");
    if (file.get() < 0) fail(path, "read", errno);
    struct stat status {};
    if (::fstat(file.get(), &status) != 0) fail(path, "read", errno);
    if (S_ISDIR(status.st_mode)) throw BadInput(path + ": is a folder; expected a file");
    std::string bytes;
    std::string block(std::size_t{1} << 16, '\0');
    for (;;) {
        const auto count = ::read(file.get(), block.data(), block.size());
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) fail(path, "read", errno);
        if (count == 0) return bytes;
        bytes.append(block, 0, static_cast<std::size_t>(count));
        if (static_cast<off_t>(bytes.size()) > most_bytes)
            throw BadInput(path + ": is too large; expected at most 64 MiB");
    }
}

void write_file(const std::string& path, const std::string& bytes) {
    const fs::path target = target_of(path);
    struct stat old {};
    const bool exists = ::stat(target.c_str(), &old) == 0;
    if (exists && !S_ISREG(old.st_mode))
        throw OutsideFault(path + ": cannot be replaced: is no ordinary file");
    if (exists && ::access(target.c_str(), W_OK) != 0) fail(path, "replaced", errno);
    NewFile fresh(target);
    OpenFile file(::open(fresh.name(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
    if (file.get() < 0) fail(path, "written", errno);
    if (exists) static_cast<void>(::fchmod(file.get(), old.st_mode & 07777));
    if (!write_all(file.get(), bytes) || !file.close()) fail(path, "written", errno);
    if (!fresh.replace(target)) fail(path, "replaced", errno);
}

} // namespace backplate
