#include <algorithm>
#include <array>
#include <map>
#include <string_view>

#include "catalog/cells/encoding.h"
#include "catalog/cells/table.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr std::size_t most_rows = 1'000'000;
constexpr std::size_t most_characters = 32'767;
constexpr int lines_looked_at = 25;
constexpr std::string_view delimiters = ",;\t|";

struct Record {
    std::vector<std::string> cells; ///< none: a blank line
    int line = 1;                   ///< where it starts
};

[[noreturn]] void refuse(const std::string& name, int line, const std::string& text) {
    throw BadInput(name + ": line " + std::to_string(line) + ": " + text);
}

/// Splits text into records, one at a time.
class Splitter {
public:
    Splitter(const std::string& name, std::string_view text, char delimiter)
        : name_(name), text_(text), delimiter_(delimiter) {}

    bool at_end() const { return at_ == text_.size(); }
    int line() const { return line_; }

    Record next() {
        Record record{{}, line_};
        if (end_line()) return record;
        do record.cells.push_back(next_cell());
        while (skip(delimiter_));
        end_line();
        return record;
    }

private:
    std::string next_cell() {
        std::string cell;
        const int start = line_;
        if (skip('"')) read_quoted(cell);
        while (!at_end() && text_[at_] != delimiter_ && text_[at_] != '\n' && text_[at_] != '\r')
            cell += text_[at_++];
        if (cell.size() > most_characters && character_count(cell) > most_characters)
            refuse(name_, start, "a cell is too long; expected at most 32767 characters");
        return cell;
    }

    void read_quoted(std::string& cell) {
        const int start = line_;
        while (!at_end()) {
            const char c = text_[at_++];
            if (c == '"' && !skip('"')) return;
            const bool crlf = c == '\r' && !at_end() && text_[at_] == '\n';
            if (c == '\n' || (c == '\r' && !crlf)) ++line_;
            cell += c;
        }
        refuse(name_, start, "a quoted cell begins here and never ends; expected a closing quote");
    }

    bool skip(char wanted) {
        if (at_end() || text_[at_] != wanted) return false;
        ++at_;
        return true;
    }

    /// Steps over CR, LF or CR LF.
    bool end_line() {
        const bool carriage = skip('\r');
        if (!skip('\n') && !carriage) return false;
        ++line_;
        return true;
    }

    const std::string& name_;
    std::string_view text_;
    char delimiter_;
    std::size_t at_ = 0;
    int line_ = 1;
};

void refuse_nul(const std::string& name, std::string_view text) {
    const auto nul = text.find('\0');
    if (nul == std::string_view::npos) return;
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<long>(nul), '\n');
    refuse(name, static_cast<int>(line), "holds a NUL byte; expected plain text");
}

std::vector<Record> split(const std::string& name, std::string_view text, char delimiter) {
    refuse_nul(name, text);
    std::vector<Record> records;
    Splitter splitter(name, text, delimiter);
    while (!splitter.at_end()) {
        if (records.size() == most_rows)
            refuse(name, splitter.line(), "has too many rows; expected at most 1000000");
        records.push_back(splitter.next());
    }
    return records;
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

bool needs_quotes(std::string_view cell, bool alone) {
    return cell.find_first_of(",\"\r\n") != std::string_view::npos || (alone && cell.empty());
}

void append_cell(std::string& text, std::string_view cell, bool quoted) {
    if (!quoted) {
        text += cell;
        return;
    }
    text += '"';
    for (const char c : cell) text.append(c == '"' ? 2 : 1, c);
    text += '"';
}

} // namespace

ReadSheet read_delimited(const std::string& name, const std::string& bytes) {
    const DecodedText decoded = decode_text(name, bytes);
    const char delimiter = find_delimiter(decoded.utf8);
    ReadSheet result{{name, {}, {}}, {decoded.encoding, std::string(1, delimiter)}};
    for (Record& record : split(name, decoded.utf8, delimiter)) {
        result.sheet.rows.push_back(std::move(record.cells));
        result.sheet.row_numbers.push_back(static_cast<int>(result.sheet.rows.size()));
    }
    return result;
}

Sheet read_csv(const std::string& name, const std::string& bytes) {
    const DecodedText decoded = decode_text(name, bytes);
    if (!decoded.encoding.starts_with("utf-8"))
        throw BadInput(name + ": is no UTF-8 text (looks like " + decoded.encoding +
                       "); expected UTF-8");
    Sheet sheet{name, {}, {}};
    for (Record& record : split(name, decoded.utf8, ',')) {
        sheet.rows.push_back(std::move(record.cells));
        sheet.row_numbers.push_back(record.line);
    }
    const auto heading = std::find_if(sheet.rows.begin(), sheet.rows.end(), [](const auto& row) {
        return !row.empty() && !row[0].starts_with('#');
    });
    if (heading != sheet.rows.end() && heading->size() == 1 &&
        (*heading)[0].find_first_of(";\t|") != std::string::npos)
        refuse(name, sheet.row_numbers[static_cast<std::size_t>(heading - sheet.rows.begin())],
               "has no comma between its headings; expected commas");
    return sheet;
}

std::string write_csv(const std::vector<std::vector<std::string>>& rows) {
    std::string text;
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (i > 0) text += ',';
            // A first cell that begins like a byte order mark would be read as one.
            const bool marked = text.empty() && row[i].starts_with("\xEF\xBB\xBF");
            append_cell(text, row[i], marked || needs_quotes(row[i], row.size() == 1));
        }
        text += '\n';
    }
    return text;
}

} // namespace backplate
