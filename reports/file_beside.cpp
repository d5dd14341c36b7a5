#include "reports/file_beside.h"

#include <cerrno>
#include <cstdio>
#include <system_error>

#include <fcntl.h>
#include <unistd.h>

#include "pricing/values/decimal.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

[[noreturn]] void fail(const std::string& path, int error) {
    throw OutsideFault(path + ": cannot be written: " + std::generic_category().message(error));
}

void flush_to_disk(const std::string& path, const std::string& name) {
    const int file = open(name.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) fail(path, errno);
    const int result = fsync(file);
    const int error = errno;
    close(file);
    if (result != 0) fail(path, error);
}

void write_all(const std::string& path, const std::string& name, const std::string& bytes) {
    const int file = open(name.c_str(), O_WRONLY | O_CLOEXEC);
    if (file < 0) fail(path, errno);
    for (std::size_t done = 0; done < bytes.size();) {
        const ssize_t more = write(file, bytes.data() + done, bytes.size() - done);
        if (more < 0 && errno == EINTR) continue;
        if (more < 0) {
            const int error = errno;
            close(file);
            fail(path, error);
        }
        done += static_cast<std::size_t>(more);
    }
    if (close(file) != 0) fail(path, errno);
}

} // namespace

std::string make_beside(const std::string& path) {
    const std::string stem = path + "." + steps_text(getpid(), 0) + ".part";
    for (int attempt = 0;; ++attempt) {
        const std::string name = stem + steps_text(attempt, 0);
        const int file = open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0) {
            close(file);
            return name;
        }
        if (errno != EEXIST || attempt == 99) fail(path, errno);
    }
}

void take_place(const std::string& beside, const std::string& path) {
    flush_to_disk(path, beside);
    if (std::rename(beside.c_str(), path.c_str()) != 0) fail(path, errno);
}

void replace_file(const std::string& path, const std::string& bytes) {
    const std::string beside = make_beside(path);
    try {
        write_all(path, beside, bytes);
        take_place(beside, path);
    } catch (...) {
        unlink(beside.c_str());
        throw;
    }
}

} // namespace backplate
