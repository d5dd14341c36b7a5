#pragma once

#include <functional>
#include <string>

namespace backplate {

/// What the words of the command line ask for: a run to start, or a text and its exit status.
struct Parsed {
    std::function<int()> run; ///< empty: print `text`
    std::string text;
    int status = 0;
};

/// Reads the command line. Help and version are texts with status 0; anything not understood is a
/// text for standard error with status 2.
Parsed parse_arguments(int count, char** words);

} // namespace backplate
