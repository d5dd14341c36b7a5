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
};

/// What may close a choice of modules.
struct Closers {
    std::vector<MixModule> heads, feeds; ///< sums: their own; places and bus: what they give
    int free_places_percent = 0;         ///< places to keep free in every station (spare `slot`)
    bool free_of_used = false;           ///< percent of the places taken, else of all
    int free_places = 0;                 ///< at least so many free over all stations
    int most_heads = 0;                  ///< beside the leader of the first station
};

/// The ways to close a choice of modules with so many heads.
struct Arranged {
    std::vector<Arrangement> arrangements; ///< one for each kind of feed that serves; none: no way
    bool as_sums_allow = true; ///< false: the sums alone would ask for fewer feeds, or allow a way
    bool settled = true; ///< false: the steps ended before fewer feeds, or any way, were ruled out
};

/// `leader` leads the first station: the controller, or the head of a box whose controller is in
/// another one; `heads` of the kind `head` (null: none) lead one station each. Without a feed where
/// that serves, else with the fewest feeds of each kind, over the stations in every way until one
/// holds places and bus current of every station and segment: proven to be the fewest unless not
/// settled. Source: module-mix 2 (places and bus per station), 6 step 6.
Arranged arrangements_with(const MixMember& member, const Part& leader, const Closers& closers,
                           const MixModule* head, int heads);

/// The same with the fewest feeds of each kind that the sums ask for and all modules behind the
/// leader, wherever they might stand: no arrangement of the choice, nor of one that it beats in
/// every sum, has less in any sum than one of these. None: no way.
std::vector<Arrangement> loose_arrangements(const MixMember& member, const Part& leader,
                                            const Closers& closers, const MixModule* head,
                                            int heads);

} // namespace backplate
