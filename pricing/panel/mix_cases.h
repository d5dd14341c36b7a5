#pragma once

#include <memory>
#include <vector>

#include "pricing/mix/mix_guide.h"
#include "pricing/mix/shared_fronts.h"
#include "pricing/panel/mix_rates.h"
#include "pricing/panel/panel_search.h"

namespace backplate {

/// The cheapest panel over all controllers and counts of heads. Each pair of them is a case with a
/// bound: the cheapest whole panel around the least current, heat and width that any choice of
/// modules brings, plus the least that modules cost at rates that no panel undercuts. Choices of
/// modules are asked for from the least excess over that bound on (mix_guide.h), case by case in
/// the order of what a panel may still cost, and none any more where that reaches the best panel
/// found. Exact by decision 5: everything beside the modules never costs less for more current,
/// heat or width. Source: module-mix 3 (lemma, tiers), 4 (R9).
class MixCases {
public:
    MixCases(const std::vector<PlatformCase>& platforms, PanelChoice& choice, PanelSearch& panels,
             Work& work);

    void run();

private:
    /// One controller with so many heads of a kind.
    struct Case {
        const PlatformCase* platform = nullptr;
        const MixModule* head = nullptr; ///< null: none
        int heads = 0;
        GuidedMix guided;
        std::int64_t floor = 0; ///< least direct cost of a panel, ten-thousandths
        std::int64_t done = 0;  ///< excess up to which choices were asked for; -1: none yet
        std::int64_t bound = 0; ///< of panels not judged yet, ten-thousandths
        bool hopeless = false;  ///< no panel even around the least
        std::shared_ptr<const MixProblem> shaped = nullptr; ///< asked once more by shapes
        std::optional<Start> around = std::nullopt; ///< the least, not looked at closely yet
        std::size_t number = 0;                     ///< the same once more by shapes
    };
    /// A choice that finds no places though its sums allow them, and the least that a panel around
    /// it, or around one that it beats in every sum, costs.
    struct Misfit {
        MixMember member;
        std::int64_t least = 0;
    };
    /// What is known of a case that is asked once more by shapes.
    struct ByShapes {
        std::vector<Misfit> misfits;
        bool asked = false;
    };

    void add(const PlatformCase& platform, const MixModule* head, int heads);
    Start around_least(const PlatformCase& platform, const Arrangement& bare) const;
    void set_floor(Case& each, std::int64_t least) const;
    void judge(Case& each);
    std::int64_t next_limit(const Case& each) const;
    void place(const Case& each, const MixFront& front, std::int64_t beyond);
    Start start_of(const Case& each, Arrangement arrangement, bool proven) const;
    std::int64_t least_around(const Case& each, const MixMember& member);
    void try_least(const Case& each);
    void tell_shapes_of(const Case& each, const Misfit& misfit);
    std::int64_t least_beaten(const Case& each, const MixMember& member) const;
    bool hopeless(const Case& each, const MixMember& member);
    MixFront shaped_front(const Case& each, const MixGuide& guide);
    void note_unplaced();

    PanelChoice& choice_;
    PanelSearch& panels_;
    Work& work_;
    const std::vector<PlatformCase>& platforms_;
    std::vector<Case> open_;
    MixRates rates_;
    SharedFronts fronts_;
    std::vector<ByShapes> by_shapes_;         ///< by number of the case
    std::vector<const PlatformCase*> placed_; ///< some choice found its places
    std::optional<std::int64_t>
        doubted_; ///< least panel around a choice whose places are not settled
};

} // namespace backplate
