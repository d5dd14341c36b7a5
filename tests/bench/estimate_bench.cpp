#include <cmath>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <string>

#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

namespace backplate {
namespace {

struct Mix {
    const char* name;
    std::vector<std::pair<std::string, int>> parts; ///< percent by signal
};

/// Shares of the signals: invented; `plain` is four signals, `wide` nine.
const std::vector<Mix>& mixes() {
    static const std::vector<Mix> all{
        {"plain", {{"DI", 55}, {"DO", 25}, {"AI_MA", 15}, {"AO_MA", 5}}},
        {"wide",
         {{"DI", 40},
          {"DO", 20},
          {"DO_RELAY", 6},
          {"AI_MA", 12},
          {"AI_V", 5},
          {"AO_MA", 5},
          {"AO_V", 2},
          {"RTD", 8},
          {"CNT", 2}}}};
    return all;
}

std::string request_text(const Mix& mix, int points) {
    std::vector<std::pair<std::string, int>> lines;
    for (const auto& [signal, percent] : mix.parts)
        lines.emplace_back(signal, std::max(1, points * percent / 100));
    return box_request(points_text(lines), R"(, "site": {"ambient_c": [0, 40]})",
                       R"(, "spare": {"percent": {"default": 20}})");
}

void measure(const Mix& mix, int points) {
    const BidRequest request = request_of(request_text(mix, points));
    const PriceBook book = demo_book();
    Work work;
    const std::clock_t start = std::clock();
    const Estimate estimate = price_job(request, book, starter_rules(), work);
    const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    std::cout << mix.name << ' ' << points << " points: mix labels " << work.counts.mix_labels
              << ", candidates " << work.counts.candidates << ", heat evaluations "
              << work.counts.heat_evaluations << ", " << std::llround(seconds * 1000)
              << " ms of processor time, ";
    if (estimate.price)
        std::cout << estimate.systems.front().platform << ", price "
                  << estimate.price->price.text(2)
                  << (estimate.systems.front().proven_cheapest ? ", proven" : ", not proven");
    else
        std::cout << "not buildable: " << estimate.findings.front().params.back().second;
    std::cout << std::endl;
}

} // namespace
} // namespace backplate

int main(int argc, char** argv) {
    const int only = argc > 1 ? std::atoi(argv[1]) : 0;
    for (const backplate::Mix& mix : backplate::mixes())
        for (const int points : {50, 100, 200, 500})
            if (only == 0 || only == points) backplate::measure(mix, points);
}
