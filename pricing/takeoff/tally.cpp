#include "pricing/takeoff/tally.h"

#include <algorithm>

namespace backplate {

int sum_of(const SignalCounts& counts) {
    int sum = 0;
    for (const auto& [signal, count] : counts) sum += count;
    return sum;
}

SignalCounts times(SignalCounts counts, int pieces) {
    for (auto& [signal, count] : counts) count *= pieces;
    return counts;
}

int sum_of_kind(const SignalCounts& counts, const std::string& kind,
                const std::map<std::string, int>& columns) {
    int sum = 0;
    for (const auto& [signal, count] : counts) {
        const bool temperature = signal == "RTD" || signal == "TC";
        const std::string basic = temperature ? "AI" : signal.substr(0, 2);
        const bool whole = signal == kind || signal.starts_with(kind + "_");
        if (whole || (basic == kind && !columns.contains(signal))) sum += count;
    }
    return sum;
}

void Tally::add(Was was, int points) { sums_[static_cast<int>(was)] += points; }

void Tally::add_kind(const std::string& title, Was was, int points) {
    kinds_[title].sums[static_cast<int>(was)] += points;
}

bool Tally::adds_up(const Sums& sums, int total) {
    int sum = 0;
    for (const int part : sums) {
        sum += part;
        if (sum == total) return true;
    }
    return false;
}

bool Tally::gives(int total) const {
    Sums part{};
    for (int i = 0; i < ways; ++i) part[i] = sums_[i] - at_part_[i];
    return adds_up(sums_, total) || adds_up(part, total);
}

bool Tally::kind_gives(const std::string& title, int total) const {
    const auto found = kinds_.find(title);
    return found == kinds_.end() ? total == 0 : adds_up(found->second.sums, total);
}

int Tally::counted_of(const std::string& title) const {
    const auto found = kinds_.find(title);
    return found == kinds_.end() ? 0 : found->second.sums[0];
}

void Tally::close_part() { std::copy(sums_, sums_ + ways, at_part_); }

} // namespace backplate
