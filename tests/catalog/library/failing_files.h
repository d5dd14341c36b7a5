#pragma once

#include <sqlite3.h>
#include <unistd.h>

#include <cstring>

namespace backplate {

/// What happens at the n-th act on a file of the database.
enum class FileFault { none, killed, refused };

/// File access of the database that counts every write, sync, truncation and removal of a file, and
/// fails at the n-th: the process dies there (a write half done), or the act is refused as by a
/// full disk. One per process, the default of every database opened after `install`. The methods
/// are those of https://www.sqlite.org/vfs.html.
class FailingFiles {
public:
    static void install(FileFault fault, int at) {
        base() = sqlite3_vfs_find(nullptr);
        state() = {fault, at, 0};
        static sqlite3_vfs own;
        own = *base();
        own.zName = "failing";
        own.szOsFile = base()->szOsFile + static_cast<int>(sizeof(File));
        own.xOpen = open;
        own.xDelete = remove;
        sqlite3_vfs_register(&own, 1);
    }
    static int acts() { return state().count; }

private:
    struct State {
        FileFault fault = FileFault::none;
        int at = 0, count = 0;
    };
    struct File {
        sqlite3_file head;
        sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
    };
    static State& state() {
        static State one;
        return one;
    }
    static sqlite3_vfs*& base() {
        static sqlite3_vfs* one = nullptr;
        return one;
    }
    static sqlite3_file* real(sqlite3_file* file) { return reinterpret_cast<File*>(file)->real(); }

    /// Counts an act; true where it is refused. Does not return where the process dies.
    static bool fails(const auto& half) {
        State& now = state();
        if (++now.count != now.at || now.fault == FileFault::none) {
            // A disk stays full.
            return now.fault == FileFault::refused && now.count > now.at;
        }
        if (now.fault == FileFault::refused) return true;
        half();
        ::_exit(killed_status);
    }

    static int write(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 offset) {
        auto* to = real(file);
        const auto half = [&] { to->pMethods->xWrite(to, bytes, size / 2, offset); };
        if (fails(half)) return SQLITE_FULL;
        return to->pMethods->xWrite(to, bytes, size, offset);
    }
    static int truncate(sqlite3_file* file, sqlite3_int64 size) {
        if (fails([] {})) return SQLITE_IOERR_TRUNCATE;
        return real(file)->pMethods->xTruncate(real(file), size);
    }
    static int sync(sqlite3_file* file, int flags) {
        if (fails([] {})) return SQLITE_IOERR_FSYNC;
        return real(file)->pMethods->xSync(real(file), flags);
    }
    static int remove(sqlite3_vfs*, const char* name, int sync_folder) {
        if (fails([] {})) return SQLITE_IOERR_DELETE;
        return base()->xDelete(base(), name, sync_folder);
    }
    static int close(sqlite3_file* f) { return real(f)->pMethods->xClose(real(f)); }
    static int read(sqlite3_file* f, void* to, int size, sqlite3_int64 at) {
        return real(f)->pMethods->xRead(real(f), to, size, at);
    }
    static int size(sqlite3_file* f, sqlite3_int64* size) {
        return real(f)->pMethods->xFileSize(real(f), size);
    }
    static int lock(sqlite3_file* f, int kind) { return real(f)->pMethods->xLock(real(f), kind); }
    static int unlock(sqlite3_file* f, int kind) {
        return real(f)->pMethods->xUnlock(real(f), kind);
    }
    static int reserved(sqlite3_file* f, int* out) {
        return real(f)->pMethods->xCheckReservedLock(real(f), out);
    }
    static int control(sqlite3_file* f, int what, void* value) {
        return real(f)->pMethods->xFileControl(real(f), what, value);
    }
    static int sector(sqlite3_file* f) { return real(f)->pMethods->xSectorSize(real(f)); }
    static int traits(sqlite3_file* f) {
        return real(f)->pMethods->xDeviceCharacteristics(real(f));
    }

    static int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out) {
        static const sqlite3_io_methods methods{
            1,       close,  read,   write,   truncate, sync,    size,    lock,    unlock, reserved,
            control, sector, traits, nullptr, nullptr,  nullptr, nullptr, nullptr, nullptr};
        const int result = base()->xOpen(base(), name, real(file), flags, out);
        file->pMethods = real(file)->pMethods ? &methods : nullptr;
        return result;
    }

public:
    static constexpr int killed_status = 9;
};

} // namespace backplate
