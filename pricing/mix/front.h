#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/mix/demand.h"
#include "pricing/values/work.h"

namespace backplate {

/// What a choice of modules brings, all additive; lower is never worse.
struct MixSums {
    enum Index { cost, width, heat, current, terminals, wires, tested, modules, places, bus, size };
    /// ten-thousandths of the currency, 0.1 mm, 0.1 mW, 0.01 mA, pieces, pieces, 1e-10 of the
    /// currency (test and screens of idle channels), pieces, places, mA
    std::array<std::int64_t, size> value{};

    std::int64_t operator[](Index index) const { return value[index]; }
    std::int64_t& operator[](Index index) { return value[index]; }
    MixSums& operator+=(const MixSums& other);
};

/// What a fitted channel beyond the requirement brings, by mix line.
struct ExtraChannel {
    std::int64_t terminals = 0, wires = 0, tested = 0;
};

/// A module as the search sees it.
struct MixModule {
    const Part* part = nullptr;
    MixSums sums;            ///< of the module and its accessories, channels apart
    std::uint64_t kinds = 0; ///< bit per different article on the bill
    std::vector<std::int64_t> channel_current, channel_heat; ///< of a carried channel, by line
    std::uint64_t shape =
        0; ///< of its places and bus current, where choices are told apart by them
};

/// Where the channels of one module go: per mix line carried, and to which line the rest counts.
struct ModuleUse {
    const Part* part = nullptr;
    std::vector<int> carried;          ///< by mix line
    std::vector<int> extra;            ///< fitted beyond the requirement, by mix line
    std::vector<int> conditional = {}; ///< carried in groups with a condition, by mix line
};

/// One choice of modules for a controller.
struct MixMember {
    MixSums sums;
    std::uint64_t kinds = 0;
    std::vector<ModuleUse> uses; ///< the controller's onboard channels first, if it has any
    std::uint64_t shape = 0;     ///< sum over its modules
    std::int64_t excess = 0;     ///< beyond what the guide's prices make of its channels
};

/// A module-mix problem for one controller: every line must be carried.
struct MixProblem {
    std::vector<MixLine> lines;
    std::vector<ExtraChannel> extra; ///< by line
    MixModule controller;
    std::vector<MixModule> modules;
    /// Most that one more article on the bill may cost in work, ten-thousandths of the currency;
    /// nothing where articles differ in more than their sums show: then none may be added.
    std::optional<std::int64_t> article_cost;
    std::vector<int> keep; ///< by module: at least so many of it; shorter: none
};

/// Gives every module the shape of its places and bus current: a choice then beats only those of
/// the same shapes, which stand wherever it stands.
void tell_shapes(MixProblem& problem);

/// What tells cheap choices from dear ones before they are whole: a rate for every sum, and prices
/// of carried channels so low that no use of a module costs less at the rates than the channels it
/// carries. What it costs more is its excess; that of a choice is the sum over its uses, the
/// controller's channels counted by how much less they carry than they might. (Reduced costs of a
/// linear program: mix_guide.h.)
struct MixGuide {
    MixSums rate;                       ///< not negative; 1e-10 of the currency per unit of a sum
    std::vector<std::int64_t> channels; ///< price of a channel by line, 1e-10 of the currency
    std::int64_t limit = 0;             ///< choices of more excess are left out
    bool least_only = false;            ///< choices of more than the least excess too
};

/// The sums at the rates, 1e-10 of the currency.
std::int64_t at_rates(const MixSums& sums, const MixSums& rate);

struct MixFront {
    std::vector<MixMember> members; ///< no member is worse than another in every sum and article
    bool proven = true;             ///< false where the budget ended the search
    bool complete = true;           ///< false where a guide's limit left something out
};

/// All choices that no other choice beats in every sum, articles that the other lacks added to its
/// cost at `article_cost`: exact by dynamic programming over the channels that are still open, one
/// component of lines (linked by a common module) after the other. A module takes all it can of
/// what is open, the first open line first; of choices that differ only in where channels stay
/// idle, that one counts. No line may be uncovered: no member then. With a guide exactly those
/// members whose excess is within its limit, found without looking at the others. Ties keep the
/// first in the order of the modules. Source: module-mix 2, 3, 6 (R6 without the sharing reduction,
/// R9).
MixFront mix_front(const MixProblem& problem, Work& work, const MixGuide* guide = nullptr);

/// By line the number of its component: that of the first of the lines that are linked to it by a
/// module or by the controller's channels.
std::vector<int> mix_components(const MixProblem& problem);

/// True where `a` is no worse than `b` in every sum, the articles that only `a` needs added to its
/// cost at `article_cost` each (ten-thousandths of the currency); without it `a` may need none that
/// b does not. Holds on for whatever is added to both: the articles that only `a` needs never grow.
bool no_worse(const MixSums& a, std::uint64_t kinds_a, const MixSums& b, std::uint64_t kinds_b,
              std::optional<std::int64_t> article_cost = std::nullopt);

} // namespace backplate
