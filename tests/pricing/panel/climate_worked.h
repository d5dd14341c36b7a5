#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>

#include "pricing/request/node_values.h"
#include "tests/pricing/sample_books.h"

namespace backplate {

inline Node read_examples() {
    const std::string path = BACKPLATE_SOURCE_TREE "/tests/lists/climate_worked.json";
    std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    return parse_json(path, text.str()).root;
}

/// One worked value: inputs and expected figures by name.
struct Worked {
    const Node& node;

    double in(const char* name) const { return of("inputs", name); }
    bool holds(const char* name) const { return node.find("inputs")->find(name); }
    std::string word(const char* name) const { return node.find("inputs")->find(name)->text; }
    double of(const char* group, const char* name) const {
        return number_value(*node.find(group)->find(name)).value();
    }
    /// The computed figure against the expected one; relative tolerance of the entry.
    void check(const char* name, double computed) const {
        CAPTURE(name);
        const double tolerance = number_value(*node.find("rel_tol")).value();
        const double expected = of("expected", name);
        // Figures are printed to a few digits, which own values state tighter than they print.
        CHECK(computed == Approx(expected).epsilon(std::max(tolerance, 5e-5)).margin(1e-9));
    }
};

} // namespace backplate
