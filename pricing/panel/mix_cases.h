#pragma once

#include <memory>
#include <vector>

#include "pricing/mix/mix_guide.h"
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
    };

    void add(const PlatformCase& platform, const MixModule* head, int heads);
    void judge(Case& each);
    std::int64_t next_limit(const Case& each) const;
    bool place(const Case& each, const MixFront& front, std::int64_t beyond);
    void try_least(const Case& each);
    void tell_shapes_of(Case& each);
    MixFront shaped_front(const Case& each, const MixGuide& guide);
    void doubt(const Case& each, const MixMember& member);
    void note_unplaced();

    PanelChoice& choice_;
    PanelSearch& panels_;
    Work& work_;
    const std::vector<PlatformCase>& platforms_;
    std::vector<Case> open_;
    std::vector<const PlatformCase*> placed_; ///< some choice found its places
    std::optional<std::int64_t>
        doubted_; ///< least panel around a choice whose places are not settled
};

} // namespace backplate
