#include "pricing/job/similar.h"

#include <algorithm>
#include <map>

namespace backplate {
namespace {

std::map<std::string, std::int64_t> by_signal(const EstimateRecord& record) {
    std::map<std::string, std::int64_t> counts;
    for (const auto& points : record.points)
        counts[points.signal] += std::int64_t{points.used} * points.boxes;
    return counts;
}

} // namespace

JobMeasures measures_of(const EstimateRecord& record) {
    JobMeasures measures;
    for (const auto& [signal, count] : by_signal(record)) measures.points += count;
    if (!record.priced || measures.points == 0) return measures;
    const PricedJob& job = *record.priced;
    measures.per_point = job.price.ratio(1, measures.points).rounded(job.digits);
    std::int64_t hours = 0;
    for (const PricedLine& line : job.labour) hours += line.quantity;
    measures.hours_per_point =
        Hours::of_steps(multiply_divide(hours, 1, measures.points, Rounding::half_away));
    return measures;
}

Percent points_in_common(const EstimateRecord& one, const EstimateRecord& other) {
    constexpr std::int64_t whole = 1'000'000; // 100 % in steps of Percent
    const auto first = by_signal(one);
    auto second = by_signal(other);
    std::int64_t smaller = 0, larger = 0;
    for (const auto& [signal, count] : first) {
        const std::int64_t there = second[signal];
        smaller += std::min(count, there);
        larger += std::max(count, there);
        second.erase(signal);
    }
    for (const auto& [signal, count] : second) larger += count;
    if (larger == 0) return {};
    return Percent::of_steps(multiply_divide(smaller, whole, larger, Rounding::half_away));
}

} // namespace backplate
