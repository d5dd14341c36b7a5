#pragma once

#include <cstdio>
#include <functional>

#include "app/command_line/commands.h"
#include "pricing/values/faults.h"
#include "tests/catalog/library/scratch.h"

namespace backplate {

/// A run of a command with what it wrote to standard output.
struct Ran {
    int status = 0;
    std::string out;
};

/// Standard output goes into a file while the command runs.
inline Ran run(const Scratch& scratch, const std::function<int()>& command) {
    const std::string path = scratch.file("out");
    std::fflush(stdout);
    const int kept = ::dup(STDOUT_FILENO);
    FILE* out = std::fopen(path.c_str(), "w");
    ::dup2(::fileno(out), STDOUT_FILENO);
    Ran ran;
    try {
        ran.status = command();
    } catch (const BadInput& bad) {
        ran = {bad_input, bad.what()};
    } catch (const OutsideFault& outside) {
        ran = {outside_failed, outside.what()};
    }
    std::fflush(stdout);
    ::dup2(kept, STDOUT_FILENO);
    ::close(kept);
    std::fclose(out);
    if (ran.out.empty()) ran.out = read_file(path);
    return ran;
}

/// The commands on the library of a folder.
struct Desk {
    Scratch scratch;
    CommonArguments common{scratch.library(), false};

    Ran parts(const char* verb, const std::string& path = "") const {
        return run(scratch, [&] { return run_parts({verb, path}, common); });
    }
    Ran rules(const char* verb, const std::string& path = "") const {
        return run(scratch, [&] { return run_rules({verb, path}, common); });
    }
    Ran library(const char* verb, const std::string& path = "") const {
        return run(scratch, [&] { return run_library({verb, path}, common); });
    }
    std::string write(const std::string& name, const std::string& text) const {
        write_file(scratch.file(name), text);
        return scratch.file(name);
    }
};

} // namespace backplate
