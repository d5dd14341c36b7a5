#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// One record of delimited text.
struct Record {
    std::vector<std::string> cells;    ///< none: a blank line
    int line = 1;                      ///< where it starts
    std::vector<std::size_t> too_long; ///< columns (from 0) of cells above 32,767 characters
};

/// Splits UTF-8 text into records, one at a time: quoted cells with line breaks, doubled quotes,
/// CR, LF or CR LF at the end of a line.
class RecordSplitter {
public:
    /// All must outlive the splitter. Throws RefusedList not_text where the text holds a NUL byte.
    RecordSplitter(const std::string& name, std::string_view text, char delimiter);

    bool at_end() const { return at_ == text_.size(); }
    int line() const { return line_; }
    /// Throws RefusedList not_text naming the line where a quote is never closed.
    Record next();

private:
    std::string next_cell();
    void read_quoted(std::string& cell);
    bool skip(char wanted);
    bool end_line();

    const std::string& name_;
    std::string_view text_;
    char delimiter_;
    std::size_t at_ = 0, last_width_ = 0;
    int line_ = 1;
};

/// The delimiter that a line "sep=;" names, else of comma, semicolon, tab and stroke the one that
/// explains the first lines best; those in quotes do not count.
char find_delimiter(std::string_view text);

/// Refuses a file naming the line: "NAME: line N: TEXT".
[[noreturn]] void refuse_line(const std::string& name, int line, const std::string& text);

} // namespace backplate
