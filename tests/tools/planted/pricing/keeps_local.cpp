// mutable
#include <string>

const std::string& planted(const char* text) {
    static const std::string kept = text;
    return kept;
}
