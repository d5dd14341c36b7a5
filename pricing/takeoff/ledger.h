#pragma once

#include <string>

#include "pricing/takeoff/take_off.h"

namespace backplate {

/// Keeps account of the rows of one sheet: each gets exactly one of four outcomes.
class Ledger {
public:
    explicit Ledger(std::string sheet) : sheet_(std::move(sheet)) {}

    void begin_row(int row);
    void leave_out(std::string why);
    void refuse(std::string reason);
    void ask(OpenQuestion question);
    void count() { close(RowOutcome::Is::counted, {}); }

    /// Beside the outcome.
    void warn(std::string reason);
    void add_point(TakenPoint point);
    void add_spare(const SignalCounts& signals);
    void add_bus(const std::string& protocol) { ++result_.bus_rows[protocol]; }
    void ask_panel(std::string proposed);
    void add_note(FileNote note);
    void add_mismatch(TotalMismatch mismatch);
    void check_totals(TotalsCheck check);

    bool has_refused() const { return !result_.refuse_rows.empty(); }
    /// Asserts that every row has its outcome.
    Takeoff take();

private:
    void close(RowOutcome::Is is, std::string reason);

    std::string sheet_;
    Takeoff result_;
    int row_ = 0;
    std::size_t rows_begun_ = 0;
};

} // namespace backplate
