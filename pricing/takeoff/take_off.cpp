#include "pricing/takeoff/take_off.h"

#include <algorithm>
#include <array>
#include <set>

#include "pricing/takeoff/row_facts.h"
#include "pricing/takeoff/tags.h"

namespace backplate {
namespace {

/// The texts of a row by role, cleaned.
struct RowTexts {
    int row = 0;
    std::string tag, description, type, electrics, panel, remarks, address, quantity;

    std::string kind_and_remarks() const { return type + " " + electrics + " " + remarks; }
};

/// Rows seen so far, to compare with a total of the list.
struct Tally {
    int counted = 0, spare = 0, deleted = 0, other = 0;

    bool gives(int total) const {
        return total == counted || total == counted + spare || total == counted + spare + deleted ||
               total == counted + spare + deleted + other;
    }
};

int sum_of(const SignalCounts& counts) {
    int sum = 0;
    for (const auto& [signal, count] : counts) sum += count;
    return sum;
}

SignalCounts times(SignalCounts counts, int pieces) {
    for (auto& [signal, count] : counts) count *= pieces;
    return counts;
}

class ListReader {
public:
    ListReader(const RuleBook& rules, Heading heading, Cells heading_cells)
        : rules_(rules), lexicon_(rules.spellings), heading_(std::move(heading)),
          heading_cells_(cleaned(heading_cells)), fields_(heading_cells.size()) {}

    void read(const Cells& cells, int row);
    Takeoff take() { return std::move(result_); }
    void count_not(const std::string& why) { ++result_.rows_not_counted[why]; }

    static Cells cleaned(const Cells& cells);

private:
    bool read_text_row(const Cells& cells);
    void read_total(const Cells& cells, int row);
    void read_signal(const Cells& cells, const RowTexts& texts, const Verdict& verdict);
    void take_point(const RowTexts& texts, const SignalCounts& signals);
    bool asked(const Cells& cells, const RowTexts& texts, const SignalCounts& signals,
               const Quantity& quantity);
    bool asked_about_range(const RowTexts& texts, const SignalCounts& signals,
                           const Quantity& quantity);
    void warn_about(const Cells& cells, const RowTexts& texts, const SignalCounts& signals);
    bool is_total(const Cells& cells, const RowTexts& texts) const;
    bool is_spare(const RowTexts& texts) const;

    RowTexts texts_of(const Cells& cells, int row);
    std::string panel_name(const std::string& text);
    Squeezed role_text(const Cells& cells, Role role) const {
        return squeeze(heading_.text(cells, role));
    }
    bool remark_says(const RowTexts& texts, std::string_view meaning) const {
        return lexicon_.says(squeeze(texts.remarks), meaning);
    }
    void ask(const RowTexts& texts, std::string reason, std::optional<SignalCounts> proposal) {
        result_.ask.push_back({texts.row, std::move(reason), texts.panel, std::move(proposal), {}});
        ++tally_.other;
    }
    void refuse(int row, std::string reason) {
        result_.refuse_rows.push_back({row, std::move(reason)});
        ++tally_.other;
    }
    void warn(int row, std::string reason) { result_.warn.push_back({row, std::move(reason)}); }

    const RuleBook& rules_;
    Lexicon lexicon_;
    Heading heading_;
    Cells heading_cells_;
    std::size_t fields_; ///< of the heading row, empty ones too
    Takeoff result_;
    Tally tally_, since_total_start_;
    bool in_notes_ = false;
    std::string section_panel_, last_panel_;
    std::map<std::string, std::string> panel_names_; ///< by lower case: as first written
    std::set<Cells> seen_rows_;
    std::set<std::pair<std::string, SignalCounts>> seen_tags_;
};

Cells ListReader::cleaned(const Cells& cells) {
    Cells texts;
    for (const std::string& cell : cells) texts.push_back(clean_text(cell));
    while (!texts.empty() && texts.back().empty()) texts.pop_back();
    return texts;
}

std::string ListReader::panel_name(const std::string& text) {
    if (lexicon_.is(squeeze(text), "filler") || text.empty()) return {};
    return panel_names_.try_emplace(lower_ascii(text), text).first->second;
}

RowTexts ListReader::texts_of(const Cells& cells, int row) {
    const auto text = [&](Role role) { return heading_.text(cells, role); };
    RowTexts texts{row,
                   text(Role::tag),
                   text(Role::description),
                   text(Role::type),
                   text(Role::electrics),
                   panel_name(text(Role::panel)),
                   text(Role::remarks),
                   text(Role::address),
                   text(Role::quantity)};
    if (!heading_.has(Role::panel)) texts.panel = section_panel_;
    if (lexicon_.is(squeeze(texts.tag), "filler")) texts.tag.clear();
    return texts;
}

/// Rows that are no rows of the table: blank, notes below it, headings again, sections.
bool ListReader::read_text_row(const Cells& cells) {
    const auto filled =
        std::ranges::count_if(cells, [](const std::string& cell) { return !cell.empty(); });
    if (filled == 0) return count_not("blank"), true;
    if (cells == heading_cells_) return count_not("header"), true;
    const Squeezed only = squeeze(cells.back());
    if (filled == 1 && lexicon_.is(only, "legend")) in_notes_ = true;
    if (in_notes_) return count_not("note"), true;
    if (filled > 1 || !heading_.text(cells, Role::type).empty()) return false;
    if (lexicon_.is(only, "spare")) return count_not("spare"), true;
    if (lexicon_.begins(only, "total")) return count_not("total"), true;
    const std::string panel = panel_of_section(cells.back(), lexicon_);
    if (!panel.empty()) section_panel_ = panel_name(panel);
    return count_not("section"), true;
}

bool ListReader::is_total(const Cells& cells, const RowTexts& texts) const {
    const auto first = std::ranges::find_if(cells, [](const auto& cell) { return !cell.empty(); });
    return lexicon_.begins(squeeze(texts.tag), "total") ||
           lexicon_.begins(squeeze(texts.description), "total") ||
           lexicon_.begins(squeeze(*first), "total");
}

void ListReader::read_total(const Cells& cells, int row) {
    count_not("total");
    std::vector<int> numbers;
    for (const std::string& cell : cells) {
        const Quantity quantity = read_quantity(cell, lexicon_);
        if (quantity.stated && quantity.refusal.empty()) numbers.push_back(quantity.pieces);
    }
    const Tally since{
        tally_.counted - since_total_start_.counted, tally_.spare - since_total_start_.spare,
        tally_.deleted - since_total_start_.deleted, tally_.other - since_total_start_.other};
    since_total_start_ = tally_;
    if (!result_.refuse_rows.empty()) return; // what they would add is not known
    if (numbers.size() != 1 || tally_.gives(numbers[0]) || since.gives(numbers[0])) return;
    result_.total_mismatches.push_back({row, numbers[0], tally_.counted});
}

bool ListReader::is_spare(const RowTexts& texts) const {
    return std::ranges::any_of(
        std::array{&texts.tag, &texts.description, &texts.remarks, &texts.type},
        [&](const std::string* text) { return lexicon_.is(squeeze(*text), "spare"); });
}

void ListReader::read(const Cells& raw, int row) {
    const Cells cells = cleaned(raw);
    if (read_text_row(cells)) return;
    const RowTexts texts = texts_of(cells, row);
    const Verdict verdict = classify({texts.type, texts.electrics, texts.address}, lexicon_);
    if (verdict.is == Verdict::Is::question && is_total(cells, texts))
        return read_total(cells, row);
    if (cells.size() > fields_) return refuse(row, "too_many_fields");
    if (remark_says(texts, "deleted")) {
        count_not("del");
        ++tally_.deleted;
        return warn(row, "deleted");
    }
    if (is_error_cell(texts.type)) return refuse(row, "error_cell_type");
    if (raw.size() < heading_.width) warn(row, "short_row");
    read_signal(cells, texts, verdict);
    if (!texts.panel.empty()) last_panel_ = texts.panel;
}

void ListReader::read_signal(const Cells& cells, const RowTexts& texts, const Verdict& verdict) {
    const bool spare = is_spare(texts);
    const auto leave_out = [&](const char* why) {
        count_not(why);
        ++tally_.other;
    };
    if (!spare && verdict.is == Verdict::Is::soft) return leave_out("soft");
    if (!spare && verdict.is == Verdict::Is::not_wired) return leave_out("noio");
    if (!spare && verdict.is == Verdict::Is::bus) {
        ++result_.bus_rows[verdict.bus];
        return leave_out("bus");
    }
    const Quantity quantity = read_quantity(texts.quantity, lexicon_);
    if (!quantity.refusal.empty()) return refuse(texts.row, quantity.refusal);
    if (quantity.pieces == 0) {
        count_not("zero");
        return warn(texts.row, "qty_zero");
    }
    const SignalCounts signals = times(verdict.signals, quantity.pieces);
    if (spare) {
        count_not("spare");
        for (const auto& [signal, count] : signals) result_.spare_rows[signal] += count;
        tally_.spare += std::max(1, sum_of(signals));
        return;
    }
    if (verdict.is == Verdict::Is::question)
        return ask(texts, verdict.reason, verdict.proposes ? std::optional(signals) : std::nullopt);
    if (asked(cells, texts, signals, quantity)) return;
    warn_about(cells, texts, signals);
    take_point(texts, signals);
}

bool ListReader::asked(const Cells& cells, const RowTexts& texts, const SignalCounts& signals,
                       const Quantity& quantity) {
    if (is_memory_address(texts.address, lexicon_) || remark_says(texts, "not_connected"))
        return ask(texts, "soft_suspect", SignalCounts{}), true;
    if (!seen_rows_.insert(cells).second)
        return ask(texts, "exact_duplicate", SignalCounts{}), true;
    for (const char* doubt : {"hold", "future", "by_others"})
        if (remark_says(texts, doubt)) return ask(texts, doubt, signals), true;
    return asked_about_range(texts, signals, quantity);
}

bool ListReader::asked_about_range(const RowTexts& texts, const SignalCounts& signals,
                                   const Quantity& quantity) {
    const auto tags = tags_in_range(texts.tag);
    const int stated = sum_of(signals);
    if (!tags || stated == *tags) return false;
    if (quantity.stated || stated > 1)
        ask(texts, "qty_vs_range", std::nullopt);
    else
        ask(texts, "tag_range", times(signals, *tags));
    return true;
}

void ListReader::warn_about(const Cells& cells, const RowTexts& texts,
                            const SignalCounts& signals) {
    if (std::ranges::any_of(cells, is_error_cell)) warn(texts.row, "error_cell_text");
    if (texts.tag.empty()) return;
    if (const auto reason = tag_warning(texts.tag, lexicon_)) warn(texts.row, *reason);
    if (!seen_tags_.insert({lower_ascii(texts.tag), signals}).second) warn(texts.row, "dup_tag");
}

void ListReader::take_point(const RowTexts& texts, const SignalCounts& signals) {
    const Squeezed said = squeeze(texts.kind_and_remarks());
    const Squeezed electrics = squeeze(texts.type + " " + texts.electrics);
    for (const auto& [signal, count] : signals) {
        TakenPoint point{texts.row,         texts.panel, signal, texts.tag,
                         texts.description, {},          {},     false};
        point.wiring = wiring_said(said, signal, lexicon_, rules_);
        if (signal == "DI_AC" || signal == "DO_AC") point.volts = mains_volts(electrics, lexicon_);
        point.hart = (signal == "AI_MA" || signal == "AO_MA") && lexicon_.says(said, "hart");
        for (int i = 0; i < count; ++i) result_.points.push_back(point);
    }
    ++result_.rows_counted;
    tally_.counted += sum_of(signals);
    if (heading_.has(Role::panel) && texts.panel.empty() && !last_panel_.empty())
        result_.ask.push_back({texts.row, "fill_down_panel", "", std::nullopt, last_panel_});
}

} // namespace

Takeoff take_off(const std::vector<Cells>& rows, const std::vector<int>& row_numbers,
                 const RuleBook& rules) {
    const auto heading = find_heading(rows, rules.headings);
    if (!heading) return {};
    ListReader reader(rules, *heading, rows[heading->row]);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (i < heading->row)
            reader.count_not(ListReader::cleaned(rows[i]).empty() ? "blank" : "title");
        else if (i <= heading->last_row)
            reader.count_not("header");
        else
            reader.read(rows[i], row_numbers[i]);
    }
    Takeoff result = reader.take();
    result.header_row = row_numbers[heading->row];
    return result;
}

} // namespace backplate
