#pragma once

#include <utility>
#include <vector>

#include "pricing/mix/arrange.h"

namespace backplate {

/// Arrangements with every kind and count of heads that the closers allow.
inline std::vector<Arrangement> every_arrangement(const MixMember& member, const Part& leader,
                                                  const Closers& closers) {
    std::vector<Arrangement> all;
    const auto add = [&](const MixModule* head, int heads) {
        Arranged arranged = arrangements_with(member, leader, closers, head, heads);
        for (Arrangement& each : arranged.arrangements) all.push_back(std::move(each));
    };
    add(nullptr, 0);
    for (const MixModule& head : closers.heads)
        for (int heads = 1; heads <= closers.most_heads; ++heads) add(&head, heads);
    return all;
}

} // namespace backplate
