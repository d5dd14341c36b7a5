#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/request/node.h"

namespace backplate {

/// Writes JSON member by member, indented by two blanks; numbers as the text given.
class JsonWriter {
public:
    void begin_object(std::string_view key = {});
    void end_object();
    void begin_list(std::string_view key = {});
    void end_list();
    void text(std::string_view key, std::string_view value);
    /// Empty becomes null.
    void text_or_null(std::string_view key, std::string_view value);
    void number(std::string_view key, std::string_view literal);
    void flag(std::string_view key, bool value);
    void null(std::string_view key);
    void node(std::string_view key, const Node& value);
    std::string take();

private:
    void open(std::string_view key, char bracket);
    void close(char bracket);
    void prefix(std::string_view key);
    std::string out_;
    std::vector<bool> filled_;
};

} // namespace backplate
