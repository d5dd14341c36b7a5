// One row per point: from the texts of a row to its outcome.
#include <algorithm>
#include <array>

#include "pricing/takeoff/table_reader.h"
#include "pricing/takeoff/tags.h"

namespace backplate {
namespace {

constexpr int most_points_of_row = 100'000, most_points_of_list = 1'000'000;

using Is = Verdict::Is;

OpenQuestion doubt(const char* reason, std::optional<SignalCounts> proposal) {
    OpenQuestion question;
    question.reason = reason;
    question.proposal = std::move(proposal);
    return question;
}

/// Doubts whether a row counts at all, though what it would count is known.
bool proposes_counting(const std::string& reason) {
    constexpr auto reasons =
        std::array<std::string_view, 4>{"hidden_row", "hold", "future", "by_others"};
    return std::ranges::find(reasons, reason) != reasons.end();
}

/// Two sums (FNV-1a, 64 bits) over the cells of a row, instead of their texts: equal for equal
/// rows. The panel counts too, which may stand in a row above.
std::pair<std::uint64_t, std::uint64_t> row_key(const RowCase& row) {
    constexpr std::uint64_t prime = 0x100000001b3;
    std::uint64_t first = 0xcbf29ce484222325, second = 0x9e3779b97f4a7c15;
    const auto add = [&](const std::string& text) {
        for (const char c : text) {
            first = (first ^ static_cast<unsigned char>(c)) * prime;
            second = (second ^ (first >> 17) ^ static_cast<unsigned char>(c)) * prime;
        }
        first = (first ^ 0x100) * prime; // between two cells
    };
    add(row.texts.panel);
    for (const std::string& cell : row.cells) add(cell);
    return {first, second};
}

} // namespace

/// A cell that has no usable value, where it would say what and how many.
bool TableReader::refuse_flaws(const RowCase& row) {
    const auto column_of = [&](Role role) {
        const auto& columns = heading_.columns[static_cast<std::size_t>(role)];
        return columns.empty() ? std::size_t(-1) : columns.front();
    };
    const auto says_kind = [&](std::size_t column) {
        return column == column_of(Role::type) ||
               std::ranges::find(heading_.kinds, column, &KindColumn::column) !=
                   heading_.kinds.end();
    };
    for (const FlawedCell& cell : row.raw.flaws) {
        if (cell.flaw == CellFlaw::too_long) return ledger_.refuse("cell_too_long"), true;
        if (says_kind(cell.column) || cell.column == column_of(Role::quantity))
            return ledger_.refuse("formula_no_value"), true;
    }
    for (std::size_t i = 0; i < row.cells.size(); ++i)
        if (i == column_of(Role::type) && is_error_cell(row.cells[i]))
            return ledger_.refuse("error_cell_type"), true;
    return false;
}

void TableReader::read_point_row(RowCase& row) {
    row.verdict = words_.verdict({row.texts.type, row.texts.electrics, row.texts.address});
    if (words_.lexicon.says(row.remarks, "deleted")) {
        tally_.add(Tally::Was::deleted, 1);
        ledger_.warn("deleted");
        return ledger_.leave_out("del");
    }
    if (sheet_.delimited && row.raw.cells.size() < heading_.end_column) ledger_.warn("short_row");
    if (leave_out(row)) return;
    if (!row.quantity.refusal.empty()) {
        tally_.add(Tally::Was::other, 1);
        return ledger_.refuse(row.quantity.refusal);
    }
    const bool none = row.verdict.is == Is::point && row.verdict.signals.empty();
    if (none || row.quantity.pieces == 0)
        return ledger_.warn("qty_zero"), ledger_.leave_out("zero");
    several_signals_ |= row.verdict.signals.size() > 1 || sum_of(row.verdict.signals) > 1;
    settle(row);
}

/// Rows of soft points, of nothing wired, and of buses.
bool TableReader::leave_out(RowCase& row) {
    if (row.verdict.is == Is::point || row.verdict.is == Is::question || is_spare(row))
        return false;
    tally_.add(Tally::Was::other, 1);
    if (row.verdict.is == Is::bus) ledger_.add_bus(row.verdict.bus);
    ledger_.leave_out(row.verdict.is == Is::soft  ? "soft"
                      : row.verdict.is == Is::bus ? "bus"
                                                  : "noio");
    return true;
}

bool TableReader::is_spare(const RowCase& row) const {
    const RowTexts& texts = row.texts;
    return std::ranges::any_of(
        std::array{&texts.tag, &texts.description, &texts.remarks, &texts.type},
        [&](const std::string* text) { return words_.lexicon.is(squeeze(*text), "spare"); });
}

/// A quantity merged over several rows: how many each of them stands for is not said.
bool TableReader::is_merged_quantity(const RowCase& row) const {
    const auto& quantity = heading_.columns[static_cast<std::size_t>(Role::quantity)];
    return !quantity.empty() && tall_cell_at(quantity.front(), row.raw.number) != nullptr;
}

std::optional<OpenQuestion> TableReader::doubt_about_range(const RowCase& row,
                                                           const SignalCounts& signals) {
    if (heading_.is_matrix()) return std::nullopt;
    if (is_merged_quantity(row)) return doubt("qty_vs_range", std::nullopt);
    const auto tags = tags_in_range(row.texts.tag);
    const int stated = sum_of(signals);
    if (!tags || stated == *tags) return std::nullopt;
    if (row.quantity.stated || stated > 1) return doubt("qty_vs_range", std::nullopt);
    return doubt("tag_range", times(signals, *tags));
}

/// Everything that speaks against counting the row as it stands, the graver first.
std::vector<OpenQuestion> TableReader::doubts_about(RowCase& row, const SignalCounts& signals) {
    std::vector<OpenQuestion> doubts;
    const bool certain = row.verdict.is == Is::point;
    if (row.raw.struck) doubts.push_back(doubt("struck_out", SignalCounts{}));
    if (row.raw.hidden && !row.raw.filtered && certain)
        doubts.push_back(doubt("hidden_row", signals));
    if (!certain)
        doubts.push_back(doubt(row.verdict.reason.c_str(),
                               row.verdict.proposes ? std::optional(signals) : std::nullopt));
    if (is_memory_address(row.texts.address, words_.lexicon) ||
        words_.lexicon.says(row.remarks, "not_connected"))
        doubts.push_back(doubt("soft_suspect", SignalCounts{}));
    if (!row.raw.struck && !seen_rows_.insert(row_key(row)).second)
        doubts.push_back(doubt("exact_duplicate", SignalCounts{}));
    for (const char* reason : {"hold", "future", "by_others"})
        if (words_.lexicon.says(row.remarks, reason)) {
            doubts.push_back(doubt(reason, signals));
            break;
        }
    if (auto range = doubt_about_range(row, signals)) doubts.push_back(std::move(*range));
    return doubts;
}

/// The signals of a row after the answers to its doubts; nothing where it has its outcome: asked,
/// or left out by an answer.
std::optional<SignalCounts> TableReader::after_doubts(RowCase& row, SignalCounts signals) {
    for (OpenQuestion& question : doubts_about(row, signals)) {
        question.panel = row.texts.panel;
        question.type = row.texts.type;
        if (proposes_counting(question.reason)) question.proposal = signals;
        const ListAnswer* answer =
            words_.answers.find(question.reason, sheet_.name, row.raw.number, question.type);
        const auto settled = settled_by(answer, question.proposal, signals, row.quantity.pieces);
        if (!settled || settled->empty()) {
            tally_.add(Tally::Was::other, 1);
            if (settled)
                ledger_.leave_out("answered");
            else
                ledger_.ask(std::move(question));
            return std::nullopt;
        }
        signals = *settled;
        if (answer->row && answer->does == ListAnswer::Does::signals) break; // says all of the row
    }
    return signals;
}

/// Counts, lists as spare or asks a row whose signals are known or in doubt.
void TableReader::settle(RowCase& row) {
    for (const auto& [signal, count] : row.verdict.signals)
        if (count * std::int64_t{row.quantity.pieces} > most_points_of_row)
            return ledger_.refuse("qty_not_integer");
    const SignalCounts signals = times(row.verdict.signals, row.quantity.pieces);
    if (is_spare(row)) {
        ledger_.add_spare(signals);
        tally_.add(Tally::Was::spare, std::max(1, sum_of(signals)));
        return ledger_.leave_out("spare");
    }
    const auto sure = after_doubts(row, signals);
    if (!sure) return;
    if (sum_of(*sure) > most_points_of_list - tally_.counted())
        return ledger_.refuse("too_many_points");
    warn_about(row, *sure);
    take_points(row, *sure);
}

void TableReader::warn_about(const RowCase& row, const SignalCounts& signals) {
    if (std::ranges::any_of(row.cells, is_error_cell) || !row.raw.flaws.empty())
        ledger_.warn("error_cell_text");
    if (row.raw.red) ledger_.warn("red_fill");
    if (row.texts.tag.empty() || heading_.is_matrix()) return;
    if (const auto reason = tag_warning(row.texts.tag, words_.lexicon)) ledger_.warn(*reason);
    if (!seen_tags_.insert({lower_ascii(row.texts.tag), signals}).second) ledger_.warn("dup_tag");
}

/// The panel of a counted row; a blank one below a named one is asked, with that as a proposal.
std::string TableReader::panel_of(const RowCase& row) {
    if (!heading_.has(Role::panel) || !row.texts.panel.empty() || last_panel_.empty())
        return row.texts.panel;
    const ListAnswer* answer =
        words_.answers.find("fill_down_panel", sheet_.name, row.raw.number, row.texts.type);
    if (!answer) {
        ledger_.ask_panel(last_panel_);
        return {};
    }
    if (answer->does == ListAnswer::Does::panel) return panel_name(answer->panel);
    return answer->does == ListAnswer::Does::accept ? last_panel_ : std::string{};
}

void TableReader::take_points(const RowCase& row, const SignalCounts& signals) {
    const Squeezed said = squeeze(row.texts.kind_and_remarks());
    const Squeezed electrics = squeeze(row.texts.type + " " + row.texts.electrics);
    TakenPoint point;
    point.panel = panel_of(row);
    point.tag = row.texts.tag;
    point.text = row.texts.description;
    point.device = row.texts.device;
    point.isolated = words_.lexicon.says(said, "isolated");
    for (const auto& [signal, count] : signals) {
        point.signal = signal;
        point.count = count;
        point.wiring = wiring_said(said, signal, words_.lexicon, words_.rules);
        const bool mains = signal == "DI_AC" || signal == "DO_AC";
        point.volts = mains ? mains_volts(electrics, words_.lexicon) : std::string{};
        const bool loop = signal == "AI_MA" || signal == "AO_MA";
        point.hart = loop && words_.lexicon.says(said, "hart");
        add_tagged(row, point);
    }
    ledger_.count();
    tally_.add(Tally::Was::counted, sum_of(signals));
}

/// One point with a count, or where cells are tags one for each of them.
void TableReader::add_tagged(const RowCase& row, TakenPoint point) {
    const auto tags =
        std::ranges::count(row.tags, point.signal, &std::pair<std::string, std::string>::first);
    if (tags != point.count) return ledger_.add_point(std::move(point));
    point.count = 1;
    for (const auto& [signal, tag] : row.tags) {
        if (signal != point.signal) continue;
        point.tag = tag;
        ledger_.add_point(point);
    }
}

} // namespace backplate
