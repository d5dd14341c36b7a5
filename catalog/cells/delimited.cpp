#include "catalog/cells/delimited.h"

#include <algorithm>
#include <map>

#include "catalog/cells/encoding.h"
#include "catalog/cells/list_file.h"
#include "catalog/cells/list_limits.h"

namespace backplate {
namespace {

constexpr int lines_looked_at = 25;
constexpr std::string_view delimiters = ",;\t|";

void refuse_nul(const std::string& name, std::string_view text) {
    const auto nul = text.find('\0');
    if (nul == std::string_view::npos) return;
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<long>(nul), '\n');
    refuse_line(name, static_cast<int>(line), "holds a NUL byte; expected plain text");
}

/// How well a delimiter explains the first lines: lines that agree × delimiters in such a line.
std::size_t agreement(std::string_view text, char delimiter) {
    std::map<std::size_t, std::size_t> lines_of;
    std::size_t count = 0, best = 0;
    int line = 0;
    bool quoted = false;
    for (std::size_t at = 0; at <= text.size() && line < lines_looked_at; ++at) {
        const char c = at < text.size() ? text[at] : '\n';
        if (c == '"') quoted = !quoted;
        if (quoted) continue;
        if (c == delimiter) ++count;
        if (c != '\n' && c != '\r') continue;
        best = std::max(best, ++lines_of[count] * count);
        count = 0;
        ++line;
    }
    return best;
}

} // namespace

RecordSplitter::RecordSplitter(const std::string& name, std::string_view text, char delimiter)
    : name_(name), text_(text), delimiter_(delimiter) {
    refuse_nul(name, text);
}

Record RecordSplitter::next() {
    Record record{{}, line_, {}};
    if (end_line()) return record;
    record.cells.reserve(last_width_); // rows of a list are mostly equally long
    do {
        record.cells.push_back(next_cell());
        const std::string& cell = record.cells.back();
        if (cell.size() > most_cell_characters && character_count(cell) > most_cell_characters)
            record.too_long.push_back(record.cells.size() - 1);
    } while (skip(delimiter_));
    last_width_ = record.cells.size();
    record.cells.shrink_to_fit();
    end_line();
    return record;
}

std::string RecordSplitter::next_cell() {
    std::string cell;
    if (skip('"')) read_quoted(cell);
    while (!at_end() && text_[at_] != delimiter_ && text_[at_] != '\n' && text_[at_] != '\r')
        cell += text_[at_++];
    return cell;
}

void RecordSplitter::read_quoted(std::string& cell) {
    const int start = line_;
    while (!at_end()) {
        const char c = text_[at_++];
        if (c == '"' && !skip('"')) return;
        const bool crlf = c == '\r' && !at_end() && text_[at_] == '\n';
        if (c == '\n' || (c == '\r' && !crlf)) ++line_;
        cell += c;
    }
    refuse_line(name_, start, "a quoted cell begins here and never ends; expected a closing quote");
}

bool RecordSplitter::skip(char wanted) {
    if (at_end() || text_[at_] != wanted) return false;
    ++at_;
    return true;
}

/// Steps over CR, LF or CR LF.
bool RecordSplitter::end_line() {
    const bool carriage = skip('\r');
    if (!skip('\n') && !carriage) return false;
    ++line_;
    return true;
}

char find_delimiter(std::string_view text) {
    constexpr std::string_view told = "sep=";
    if (text.starts_with(told) && text.size() > told.size() &&
        delimiters.find(text[told.size()]) != std::string_view::npos)
        return text[told.size()];
    std::size_t best = 0;
    char found = delimiters.front();
    for (const char delimiter : delimiters) {
        const auto score = agreement(text, delimiter);
        if (score <= best) continue;
        best = score;
        found = delimiter;
    }
    return found;
}

void refuse_line(const std::string& name, int line, const std::string& text) {
    throw RefusedList("not_text", name + ": line " + std::to_string(line) + ": " + text);
}

} // namespace backplate
