#pragma once

#include <string>
#include <utility>
#include <vector>

#include "pricing/values/decimal.h"

namespace backplate {

/// One input of a figure: where it stands and what it was.
struct BasisInput {
    enum class From { figure, request, rule, part };
    From from = From::figure;
    std::string path;  ///< JSON pointer, `table/row` or `PART/field`
    std::string value; ///< exact text, before printing
    std::string unit;
};

/// How a figure came about. `formula` names the inputs in order a, b, c … z, A, B … .
struct BasisEntry {
    std::string figure; ///< JSON pointer into the estimate
    std::string value;  ///< before printing
    std::string unit;
    std::string formula;
    std::string rule; ///< `table/row`
    std::vector<BasisInput> inputs;
    std::string source;
};

/// Collects the basis while the chosen panel runs once more through the functions that judged
/// it. Candidates are judged without one (a null pointer).
class Recorder {
public:
    void add(BasisEntry entry) { entries_.push_back(std::move(entry)); }
    const std::vector<BasisEntry>& entries() const { return entries_; }
    std::vector<BasisEntry> take() { return std::move(entries_); }

private:
    std::vector<BasisEntry> entries_;
};

BasisInput from_figure(std::string path, std::string value, std::string unit);
BasisInput from_request(std::string path, std::string value, std::string unit);
BasisInput from_rule(std::string path, std::string value, std::string unit);
BasisInput from_part(std::string path, std::string value, std::string unit);

/// What a formula calls the input at `index`: a … z, A … Z, a1 … Z1, a2 …
std::string input_letter(std::size_t index);

} // namespace backplate
