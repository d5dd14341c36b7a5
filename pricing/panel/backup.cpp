#include "pricing/panel/backup.h"

#include <algorithm>

namespace backplate {
namespace {

/// Pieces of a backup part that carry the load for the time asked, and keep themselves alive.
/// Nothing where they never do. Source: climate-and-supply 5.5.
std::optional<int> backup_pieces(const Part& part, double load_a, const SearchFacts& search) {
    const SupplyRules& rules = search.rules->supply;
    const double hours = search.facts.box->choices.backup_minutes / 60;
    const double usable = rules.backup_ageing ? rules.backup_ageing->number() : 1;
    const double each =
        *part.capacity_wh * usable - part.own_a.value_or(0) * rules.volts.number() * hours;
    if (each <= 0) return std::nullopt;
    const double needed = load_a * rules.volts.number() * hours;
    return static_cast<int>(std::max<long long>(1, need_in(needed / each, 1)));
}

} // namespace

std::optional<BackupChoice> cheapest_backup(const SearchFacts& search, double load_a,
                                            double all_on_a) {
    std::optional<BackupChoice> best;
    for (const Part* part : search.backups) {
        if (*part->rated_a < all_on_a) continue;
        const auto pieces = backup_pieces(*part, load_a, search);
        if (!pieces) continue;
        const std::int64_t price = part->net()->steps() * *pieces;
        if (!best || price < best->price) best = BackupChoice{part, *pieces, price};
    }
    return best;
}

} // namespace backplate
