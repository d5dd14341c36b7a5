#pragma once

#include <vector>

#include "pricing/mix/front.h"

namespace backplate {

/// A module at its place.
struct Place {
    const Part* part = nullptr;
    int use = -1; ///< index into MixMember::uses; -1: controller without channels, head, feed
};

/// A row of places led by the controller or a head; feeds stand where a new segment begins.
struct Station {
    std::vector<Place> places;
};

/// A member of the front with what closes it: heads, feeds and the places of everything.
struct Arrangement {
    MixMember member;           ///< sums include heads and feeds
    const Part* head = nullptr; ///< kind used, if any
    const Part* feed = nullptr;
    int heads = 0, feeds = 0;
    std::vector<Station> stations;
    bool fewest = true; ///< false: more heads or feeds than the sums alone ask for
};

/// What may close a choice of modules.
struct Closers {
    std::vector<MixModule> heads, feeds; ///< sums: their own; places and bus: what they give
    int free_places_percent = 0;         ///< places to keep free in every station (spare `slot`)
    bool free_of_used = false;           ///< percent of the places taken, else of all
    int free_places = 0;                 ///< at least so many free over all stations
    int most_heads = 0;                  ///< beside the leader of the first station
};

/// `leader` leads the first station: the controller, or the head of a box whose controller is in
/// another one. Every closing worth judging: for each count of heads from the fewest that gives
/// enough places up to one more, the fewest feeds of each kind, placed by first fit on bus current
/// (decreasing). Empty where places or bus current do not reach. Source: module-mix 2 (places and
/// bus per station), 6 step 6.
std::vector<Arrangement> arrangements(const MixMember& member, const Part& leader,
                                      const Closers& closers);

/// Of these the ones with exactly so many heads of the kind (null: none).
std::vector<Arrangement> arrangements_with(const MixMember& member, const Part& leader,
                                           const Closers& closers, const MixModule* head,
                                           int heads);

} // namespace backplate
