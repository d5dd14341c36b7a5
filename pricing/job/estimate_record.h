#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/cost/compare.h"

namespace backplate {

/// What an estimate said, as far as two of them are compared; read back out of
/// backplate-estimate/1, so that an old one needs no prices and rules any more.
struct EstimateRecord {
    struct Points {
        std::string box, signal;
        int used = 0, required = 0; ///< in one box
        std::optional<int> fitted;  ///< nothing where nothing builds it
        int boxes = 1;              ///< of that kind
    };
    struct Module {
        std::string box, part;
        int quantity = 0; ///< in one box
    };
    struct Taken {
        std::string field, text;
    };

    int prices_issue = 1, rules_issue = 1;
    bool demo_data = false;
    std::string title, due;         ///< of the job; due: a day; empty: none
    std::vector<std::string> boxes; ///< their names
    std::vector<Points> points;
    std::vector<Module> modules;
    std::vector<Taken> assumptions;
    std::optional<PricedJob> priced; ///< nothing where nothing builds it
};

/// The earlier record as if its boxes were called as in the later one, where both have as many:
/// a box that the later one lacks takes the name of the box at its place.
EstimateRecord in_boxes_of(EstimateRecord before, const EstimateRecord& after);

/// One row of a difference of revisions. before or after is empty where there was no such thing.
struct RecordChange {
    std::string what; ///< points, modules, hours, price, assumptions
    std::string name, before, after;
};

/// Points, modules, hours by activity, price and assumptions that differ, in this order; the
/// sums of points and hours and the price stand always.
std::vector<RecordChange> differences(const EstimateRecord& before, const EstimateRecord& after);

} // namespace backplate
