#include "pricing/takeoff/ledger.h"

#include <stdexcept>

namespace backplate {

using Is = RowOutcome::Is;

void Ledger::begin_row(int row) {
    row_ = row;
    ++rows_begun_;
}

void Ledger::close(Is is, std::string reason) {
    if (result_.rows.size() + 1 != rows_begun_)
        throw std::logic_error("a row of a list has no outcome, or two");
    result_.rows.push_back({sheet_, row_, is, std::move(reason)});
    if (is == Is::counted) ++result_.rows_counted;
}

void Ledger::leave_out(std::string why) {
    ++result_.rows_not_counted[why];
    close(Is::not_counted, std::move(why));
}

void Ledger::refuse(std::string reason) {
    result_.refuse_rows.push_back({sheet_, row_, reason});
    close(Is::refused, std::move(reason));
}

void Ledger::ask(OpenQuestion question) {
    question.sheet = sheet_;
    question.row = row_;
    close(Is::asked, question.reason);
    result_.ask.push_back(std::move(question));
}

void Ledger::warn(std::string reason) { result_.warn.push_back({sheet_, row_, std::move(reason)}); }

void Ledger::add_point(TakenPoint point) {
    point.sheet = sheet_;
    point.row = row_;
    result_.points.push_back(std::move(point));
}

void Ledger::add_spare(const SignalCounts& signals) {
    for (const auto& [signal, count] : signals) result_.spare_rows[signal] += count;
}

void Ledger::ask_panel(std::string proposed) {
    OpenQuestion question;
    question.sheet = sheet_;
    question.row = row_;
    question.reason = "fill_down_panel";
    question.proposed_panel = std::move(proposed);
    result_.ask.push_back(std::move(question));
}

void Ledger::add_note(FileNote note) {
    note.sheet = sheet_;
    result_.notes.push_back(std::move(note));
}

void Ledger::add_mismatch(TotalMismatch mismatch) {
    mismatch.sheet = sheet_;
    mismatch.row = row_;
    result_.total_mismatches.push_back(std::move(mismatch));
}

void Ledger::check_totals(TotalsCheck check) {
    if (!result_.totals_check) result_.totals_check = std::move(check);
}

Takeoff Ledger::take() {
    std::size_t sum = static_cast<std::size_t>(result_.rows_counted) + result_.refuse_rows.size();
    for (const auto& [why, count] : result_.rows_not_counted)
        sum += static_cast<std::size_t>(count);
    for (const OpenQuestion& question : result_.ask) sum += question.proposed_panel.empty() ? 1 : 0;
    if (sum != rows_begun_ || result_.rows.size() != rows_begun_)
        throw std::logic_error("the outcomes of a list do not add up to its rows");
    return std::move(result_);
}

} // namespace backplate
