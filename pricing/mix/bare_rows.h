#pragma once

#include "pricing/mix/bare_columns.h"
#include "pricing/mix/cover_lp.h"

namespace backplate {

/// The conditions around one controller as rows: limits and choices from the start, Hall's
/// conditions for the channels and their roundings where values break them.
class BareRows {
public:
    BareRows(const BareMix& mix, const BareItem& controller, std::vector<BareColumn> columns,
             const BareLimits& limits);

    const std::vector<BareColumn>& columns() const { return columns_; }
    const BareItem& controller() const { return controller_; }

    /// Limits, choices and the need of every kind.
    CoverLp program() const;
    /// Adds rows that the values of the solved program break; false: none.
    bool cut(CoverLp& lp);
    /// Whole counts that keep every condition, exactly.
    bool sound(const std::vector<std::int64_t>& counts);

private:
    void add_set(Signals kinds);
    void add_unions();
    void add_limits(const BareLimits& limits);
    void add_choice_rows(const ItemChannels& gives, std::size_t owner);
    Signals accepted_by(const BareColumn& choice) const;
    CoverRow hall_row(Signals set, bool pooled) const;
    std::optional<Signals> broken_set(const std::vector<double>& values) const;

    const BareMix& mix_;
    const BareItem& controller_;
    ItemChannels onboard_;
    std::vector<BareColumn> columns_;
    bool chooses_ = false;
    std::vector<CoverRow> limits_; ///< of the family and of the choices
    std::vector<Signals> sets_;
    std::vector<CoverRow> hall_; ///< channels for the sets, and the roundings
};

} // namespace backplate
