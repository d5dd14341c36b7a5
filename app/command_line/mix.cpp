#include <chrono>
#include <iostream>

#include "app/command_line/commands.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/mix_instance.h"
#include "pricing/values/decimal.h"
#include "reports/mix_json.h"

namespace backplate {
namespace {

constexpr std::int64_t most_steps = 400'000; // of one family

using Clock = std::chrono::steady_clock;

FamilyAnswer answer_of(const BareMix& mix, const BareFamily& family, bool with_tradeoffs) {
    FamilyAnswer result;
    result.family = family.id;
    Work work;
    work.budget = most_steps;
    result.answer = least_cost(mix, family, work);
    if (!with_tradeoffs || !result.answer.feasible) return result;
    Work more;
    more.budget = most_steps;
    result.tradeoffs = tradeoffs(mix, family, more);
    return result;
}

} // namespace

int run_mix(const MixArguments& arguments) {
    bool proven = true;
    for (const std::string& path : arguments.instances) {
        const BareMix mix = read_mix_instance(path, read_file(path));
        const auto start = Clock::now();
        std::vector<FamilyAnswer> answers;
        for (const BareFamily& family : mix.families) {
            answers.push_back(answer_of(mix, family, arguments.tradeoffs));
            proven = proven && answers.back().answer.proven;
            if (arguments.tradeoffs && answers.back().answer.feasible)
                proven = proven && answers.back().tradeoffs.has_value();
        }
        std::optional<double> seconds;
        if (arguments.timing) seconds = std::chrono::duration<double>(Clock::now() - start).count();
        std::cout << mix_line(mix, answers, arguments.tradeoffs, seconds) << "\n";
    }
    return proven ? 0 : 1;
}

} // namespace backplate
