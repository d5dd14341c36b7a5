/// estimate_bench [POINTS [panels]]: counts and processor time of whole jobs on the demo price
/// book: estimates of one box, a job of ten boxes, the alternatives, the steps of the price, the
/// workbook; and one choice of modules judged on every supply, cooling stage and enclosure
/// (`panels`: nothing else).
#include <sys/resource.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <string>

#include "pricing/job/alternatives.h"
#include "pricing/job/price_steps.h"
#include "pricing/panel/choose_boxes.h"
#include "pricing/panel/panel_search.h"
#include "pricing/price_job.h"
#include "reports/workbook/workbook.h"
#include "tests/bench/made_requests.h"

namespace backplate {

/// The start on every supply, cooling stage and enclosure; estimate_instructions.py counts in here.
[[gnu::noinline]] void judge_everywhere(PanelChoice& choice, const Start& start, Work& work) {
    const SearchFacts& search = *choice.search;
    choice.design.reset();
    Refusals refusals;
    ShedTable shed(*search.facts.box, *search.rules, work);
    PanelSearch(choice, refusals, shed, work).run({start});
}

namespace {

template <class Run> long milliseconds(const Run& run) {
    const std::clock_t start = std::clock();
    run();
    return std::lround(static_cast<double>(std::clock() - start) * 1000 / CLOCKS_PER_SEC);
}

std::string counts_text(const WorkCounts& counts) {
    return "mix labels " + std::to_string(counts.mix_labels) + ", candidates " +
           std::to_string(counts.candidates) + ", heat evaluations " +
           std::to_string(counts.heat_evaluations);
}

std::string answer_text(const Estimate& estimate) {
    if (!estimate.price) return "not buildable";
    bool proven = true;
    for (const SystemResult& system : estimate.systems) proven = proven && system.proven_cheapest;
    return estimate.systems.front().platform + ", price " + estimate.price->price.text(2) +
           (proven ? ", proven" : ", not proven");
}

Estimate measure(const std::string& name, const BidRequest& request, const PriceBook& book) {
    Work work;
    Estimate estimate;
    const long time =
        milliseconds([&] { estimate = price_job(request, book, starter_rules(), work); });
    Work searching;
    const long search =
        milliseconds([&] { choose_boxes(request, book, starter_rules(), searching); });
    std::cout << name << ": " << counts_text(work.counts) << ", " << time
              << " ms, the panels alone " << search << " ms, " << answer_text(estimate)
              << std::endl;
    return estimate;
}

void measure_alternatives(const std::string& name, const BidRequest& request,
                          const PriceBook& book) {
    Work work;
    Alternatives found;
    const long time =
        milliseconds([&] { found = find_alternatives(request, book, starter_rules(), 20, work); });
    std::cout << name << ", " << found.alternatives.size()
              << " alternatives: " << counts_text(work.trials) << ", " << time << " ms"
              << std::endl;
    Work stepping;
    FoundSteps steps;
    const long step_time =
        milliseconds([&] { steps = price_steps(found.base, book, starter_rules(), stepping); });
    std::cout << name << ", steps of the price in " << steps.runs
              << " runs: " << counts_text(stepping.trials) << ", " << step_time << " ms"
              << std::endl;
}

void measure_workbook(const std::string& name, const Estimate& estimate) {
    const std::string path = "estimate_bench.xlsx";
    const long time = milliseconds([&] { write_workbook(estimate, starter_rules(), path); });
    std::remove(path.c_str());
    std::cout << name << ", workbook: " << time << " ms" << std::endl;
}

/// The chosen modules of the first box once more on every supply, stage and enclosure, in so many
/// boxes of that kind; the shed heat is computed anew in each.
void measure_panels(const std::string& name, const BidRequest& request, const PriceBook& book,
                    int boxes) {
    Work work;
    PanelChoice choice = choose_panel(request, request.boxes.front(), book, starter_rules(), work);
    if (!choice.design) return;
    const SearchFacts& search = *choice.search;
    const PanelDesign known = *choice.design;
    const auto cases = platform_cases(*search.book, search.facts, *search.rules, search.plan);
    const auto own = std::find_if(cases.begin(), cases.end(), [&](const PlatformCase& platform) {
        return platform.leader == known.leader;
    });
    if (own == cases.end()) return;
    const Start start{choice.platform, with_arrangement(search, *own, *known.arrangement)};
    Work judging;
    const long time = milliseconds([&] {
        for (int i = 0; i < boxes; ++i) judge_everywhere(choice, start, judging);
    });
    const bool same = choice.design && choice.design->direct_cost == known.direct_cost;
    std::cout << name << ", the chosen modules on " << search.supplies.size() << " supplies, "
              << search.stages.size() << " stages, " << search.housing.candidates.size()
              << " enclosures: " << counts_text(judging.counts) << ", " << time << " ms, "
              << (same ? "the same panel" : "ANOTHER PANEL") << std::endl;
}

void run_panels(int points) {
    const PriceBook book = demo_book();
    for (const MadeMix& mix : made_mixes())
        measure_panels(mix.name, request_of(made_request(mix, points)), book, 1);
}

void run(int only) {
    const PriceBook book = demo_book();
    for (const MadeMix& mix : made_mixes())
        for (const int points : {50, 200, 500}) {
            if (only != 0 && only != points) continue;
            const std::string name =
                std::string(mix.name) + ' ' + std::to_string(points) + " points";
            const BidRequest request = request_of(made_request(mix, points));
            const Estimate estimate = measure(name, request, book);
            measure_workbook(name, estimate);
            measure_panels(name, request, book, 1);
            measure_alternatives(name, request, book);
        }
    if (only == 0 || only == 200) {
        const PriceBook copies(with_near_copies(100), 1);
        for (const MadeMix& mix : made_mixes())
            measure(std::string(mix.name) + " 200 points, " +
                        std::to_string(copies.parts().size()) + " parts with near copies",
                    request_of(made_request(mix, 200)), copies);
    }
    if (only != 0 && only != 5000) return;
    const BidRequest request = request_of(made_request(made_mixes().front(), 500, 10));
    measure_workbook("plain 5000 points in 10 boxes",
                     measure("plain 5000 points in 10 boxes", request, book));
    measure_panels("plain 5000 points in 10 boxes", request, book, 10);
}

long peak_megabytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss / 1024;
}

} // namespace
} // namespace backplate

int main(int argc, char** argv) {
    const int points = argc > 1 ? std::atoi(argv[1]) : 0;
    if (argc > 2 && std::string(argv[2]) == "panels")
        backplate::run_panels(points);
    else
        backplate::run(points);
    std::cout << "peak memory " << backplate::peak_megabytes() << " MB" << std::endl;
}
