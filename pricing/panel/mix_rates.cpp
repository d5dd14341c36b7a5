#include "pricing/panel/mix_rates.h"

#include <algorithm>
#include <cmath>

#include "pricing/panel/line_wiring.h"

namespace backplate {
namespace {

constexpr std::int64_t pieces = 10'000; // steps of a terminal or wire

const Rule* row_of(const std::map<std::string, Rule>& table, const char* key) {
    const auto found = table.find(key);
    return found == table.end() ? nullptr : &found->second;
}

std::int64_t raised(std::int64_t amount, std::int64_t percent_steps) {
    constexpr std::int64_t hundred = 1'000'000;
    return multiply_divide(amount, hundred + percent_steps, hundred, Rounding::down);
}

/// What grows with modules, and what it costs at least.
class Prices {
public:
    explicit Prices(const SearchFacts& search) : search_(search) {}

    MixSums rate() const {
        MixSums rate;
        rate[MixSums::cost] = goods(MixRates::fine);
        rate[MixSums::tested] = labour(1);
        rate[MixSums::terminals] = terminal() / pieces;
        rate[MixSums::wires] = wire() / pieces;
        BoxCounts module;
        module.modules = 1;
        if (const Rule* row = row_of(search_.rules->sheets, "typical module"))
            module.sheets_typical = static_cast<int>(up(*row));
        rate[MixSums::modules] = labour(counted_work(search_.plan, module));
        if (const Rule* row = row_of(search_.rules->wires, "per module"))
            rate[MixSums::modules] += wire() / pieces * piece_steps(*row);
        return rate;
    }

    std::int64_t bill_line() const {
        BoxCounts one;
        one.bill_lines = 1;
        return labour(counted_work(search_.plan, one)) / MixRates::fine;
    }

    std::int64_t roundings() const {
        BoxCounts counts;
        counts.wires = counts.terminals = 1;
        counts.sheets_generated = 2;
        counts.sheets_typical = 1;
        const Part* wire = search_.parts.wire;
        const std::int64_t metre = wire ? wire->net()->steps() : 0;
        return (goods(metre * MixRates::fine) + terminal() +
                labour(counted_work(search_.plan, counts))) /
                   MixRates::fine +
               100;
    }

private:
    static std::int64_t up(const Rule& rule) { return round_to_steps(rule.value, 0, Rounding::up); }
    /// Price of one box with what is added to goods, in all boxes.
    std::int64_t goods(std::int64_t price) const {
        const ChargePlan& plan = search_.charges;
        return raised(raised(price * search_.facts.box->quantity, plan.sundries),
                      plan.freight + plan.of_goods);
    }
    std::int64_t labour(std::int64_t cost) const { return raised(cost, search_.charges.of_labour); }
    /// Work of a generated sheet for each of what the row says a sheet holds.
    std::int64_t sheet_share(const char* key) const {
        const Rule* row = row_of(search_.rules->sheets, key);
        if (!row || row->number() <= 0) return 0;
        BoxCounts one;
        one.sheets_generated = 1;
        return static_cast<std::int64_t>(std::floor(
            static_cast<double>(labour(counted_work(search_.plan, one))) / row->number()));
    }
    std::int64_t terminal() const {
        std::int64_t price = search_.parts.terminal ? search_.parts.terminal->net()->steps() : 0;
        for (const auto& [function, part] : search_.parts.own_terminals)
            price = std::min(price, part->net()->steps());
        BoxCounts one;
        one.terminals = 1;
        return goods(price * MixRates::fine) + labour(counted_work(search_.plan, one)) +
               sheet_share("generated per terminals");
    }
    std::int64_t wire() const {
        BoxCounts one;
        one.wires = 1;
        std::int64_t cost =
            labour(counted_work(search_.plan, one)) + sheet_share("generated per wires");
        const Rule* length = row_of(search_.rules->wires, "length");
        if (length && search_.parts.wire)
            cost += goods(static_cast<std::int64_t>(std::floor(
                length->number() *
                static_cast<double>(search_.parts.wire->net()->steps() * MixRates::fine))));
        return cost;
    }

    const SearchFacts& search_;
};

} // namespace

MixRates mix_rates(const SearchFacts& search) {
    const Prices prices(search);
    return {prices.rate(), prices.roundings(), prices.bill_line()};
}

} // namespace backplate
