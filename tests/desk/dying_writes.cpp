// Loaded before a program: ends it, as a loss of power would, at the n-th act on a file below a
// folder. BACKPLATE_DIES_IN: the folder, BACKPLATE_DIES_AT: n. Acts are writes (half of the bytes
// are written), syncs and renames. https://man7.org/linux/man-pages/man3/dlsym.3.html (RTLD_NEXT)

#include <dlfcn.h>
#include <unistd.h>

#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <string>

namespace {

template <class Call> Call* next_of(const char* name) {
    return reinterpret_cast<Call*>(dlsym(RTLD_NEXT, name));
}

bool is_inside(const std::string& path) {
    const char* folder = std::getenv("BACKPLATE_DIES_IN");
    return folder && path.starts_with(folder);
}

std::string path_of(int descriptor) {
    char path[4096];
    const std::string link = "/proc/self/fd/" + std::to_string(descriptor);
    const auto length = readlink(link.c_str(), path, sizeof(path));
    return {path, length > 0 ? static_cast<std::size_t>(length) : 0};
}

/// Whether this act is the last one.
bool is_last(const std::string& path) {
    static std::atomic<int> acts{0};
    const char* at = std::getenv("BACKPLATE_DIES_AT");
    return at && is_inside(path) && ++acts == std::atoi(at);
}

void die() { kill(getpid(), SIGKILL); }

} // namespace

extern "C" {

ssize_t write(int descriptor, const void* bytes, std::size_t count) {
    static const auto next = next_of<ssize_t(int, const void*, std::size_t)>("write");
    if (!is_last(path_of(descriptor))) return next(descriptor, bytes, count);
    next(descriptor, bytes, count / 2);
    die();
    return -1;
}

int fsync(int descriptor) {
    static const auto next = next_of<int(int)>("fsync");
    if (is_last(path_of(descriptor))) die();
    return next(descriptor);
}

int rename(const char* from, const char* to) noexcept {
    static const auto next = next_of<int(const char*, const char*)>("rename");
    if (is_last(to)) die();
    return next(from, to);
}
}
