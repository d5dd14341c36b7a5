#pragma once

#include <catch2/catch.hpp>
#include <fstream>
#include <functional>
#include <sstream>
#include <string>
#include <vector>

#include "pricing/request/node_values.h"
#include "tests/pricing/sample_books.h"

// tests/lists/electrical_tables.json: tables and check values of electrical-facts 1 to 7; each
// names its public page or says "from memory". Every table and every check value of it is compared
// with the rule row or the function named, or listed with the reason why nothing here computes it.
namespace backplate::electrical {

using Judge = std::function<int(const Node&)>;

inline const Node& tables() {
    static const Node root = [] {
        const std::string path = BACKPLATE_SOURCE_TREE "/tests/lists/electrical_tables.json";
        std::ifstream file(path);
        std::stringstream text;
        text << file.rdbuf();
        return parse_json(path, text.str()).root;
    }();
    return root;
}

inline double number(const Node& node) { return number_value(node).value(); }

inline std::vector<double> numbers(const Node& list) {
    std::vector<double> result;
    for (const Node& item : list.items) result.push_back(number(item));
    return result;
}

inline const Conductor* cell(const char* practice, const std::string& size,
                             const std::string& column) {
    for (const Conductor& row : starter_rules().conductors)
        if (row.practice == practice && row.size == size && row.column == column) return &row;
    return nullptr;
}

/// The cell of the table conductors against the value; null there: no row here.
inline int judge_cell(const char* practice, const std::string& size, const std::string& column,
                      const Node& value) {
    CAPTURE(size, column);
    const Conductor* row = cell(practice, size, column);
    CHECK((row != nullptr) == !value.is(Node::Kind::null));
    if (row) CHECK(row->ampacity.number() == number(value));
    return 1;
}

} // namespace backplate::electrical
