#pragma once

#include <string>
#include <vector>

#include "pricing/panel/choose_panel.h"
#include "pricing/panel/refusals.h"

namespace backplate {

/// An enclosure or suite and what it adds at least to a start.
struct StartEnclosure {
    std::size_t index = 0; ///< among the candidates, which stand by price
    std::int64_t more = 0; ///< ten-thousandths
};

/// An arrangement of one platform with the least that a panel around it can cost.
struct Start {
    std::string platform;
    PanelDesign design;
    std::int64_t least = 0; ///< of a panel around it without its enclosure
    std::int64_t power = 0; ///< price of the supply within that
    std::int64_t width = 0; ///< of its devices on the rails, without supply and incoming, 0.1 mm
    std::vector<StartEnclosure> enclosures = {}; ///< that may hold these devices: alone, then
                                                 ///< suites, each by price
    std::int64_t least_more = 0;                 ///< of the enclosures
};

/// So many enclosures side by side, with those of a start that may hold its devices.
struct StartSuites {
    int pieces = 1;
    std::vector<StartEnclosure> enclosures; ///< by price
    std::int64_t least_more = 0;            ///< of them; beyond any cost where there are none
};

/// Judges arrangements with every supply, cooling stage and enclosure and keeps the cheapest whole
/// panel in `choice`; bounds leave out what cannot be cheaper.
class PanelSearch {
public:
    PanelSearch(PanelChoice& choice, Refusals& refusals, ShedTable& shed, Work& work);

    /// Judges the starts from the cheapest on; stops where no better panel can follow.
    void run(std::vector<Start> starts);
    /// Where nothing was built: judges the narrowest of what no enclosure holds, so that its
    /// figures stand in the refusal.
    void say_why();
    /// The least direct cost of a panel around the start, which is kept nowhere; nothing where none
    /// is cheaper than the best panel known.
    std::optional<std::int64_t> probe(Start start);

    /// A quicker bound of the same, whatever is known; the largest number where no enclosure holds
    /// the devices.
    std::int64_t least_with(Start start) const;

    bool found() const { return choice_.design.has_value(); }
    /// Direct cost of the best panel known, else the largest number; ten-thousandths.
    std::int64_t best() const { return best_; }

private:
    /// A main supply, those of groups of their own and a cooling stage with their price.
    struct Power {
        std::size_t supply = 0, further = 0, stage = 0;
        std::int64_t price = 0;
    };

    void list_powers();
    void bound(Start& start) const;
    void bound_with(Start& start, const RoomNeed& need, bool suites) const;
    void try_powers(const Start& start);
    StartSuites suites_of(const Start& start, int pieces) const;
    void look_closer(const Start& start, StartSuites& suites) const;
    void try_powers(const Start& start, const StartSuites& suites);
    bool hopeless(const Start& start, const Power& power, const StartSuites& suites);
    void try_enclosures(const Start& start, PanelDesign& powered, const StartSuites& suites);
    void keep(const Start& start, PanelDesign design);
    void note(Refusal refusal, const PanelDesign& design, const Suite& enclosure);
    /// Refusals may be asked for.
    bool explains() const { return work_.wanted.reasons && !probing_ && !found(); }
    /// Nothing of this cost is wanted any more.
    bool dearer(std::int64_t cost) const {
        return cost >= best_ || (!work_.wanted.cheapest && !probing_ && found());
    }

    PanelChoice& choice_;
    const SearchFacts& search_;
    Refusals& refusals_;
    ShedTable& shed_;
    Work& work_;
    std::vector<std::vector<Power>> powers_; ///< by price; for one enclosure, for two, …
    std::vector<std::int64_t> prices_; ///< of the enclosures that may be taken, in their order
    std::int64_t best_;
    bool probing_ = false;
    std::optional<Start> narrowest_; ///< of what no enclosure holds
};

} // namespace backplate
