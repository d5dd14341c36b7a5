#include "reports/mix_json.h"

#include <fmt/format.h>

#include "pricing/request/node_values.h"

namespace backplate {
namespace {

std::string quoted(const std::string& text) { return json_quoted(text); }

const FamilyAnswer* best_of(const std::vector<FamilyAnswer>& answers) {
    const FamilyAnswer* best = nullptr;
    for (const FamilyAnswer& each : answers)
        if (each.answer.feasible && (!best || each.answer.sums[0] < best->answer.sums[0]))
            best = &each;
    return best;
}

std::string best_text(const FamilyAnswer* best) {
    if (!best) return "null";
    std::string items;
    for (const BareCount& item : best->answer.items)
        items += fmt::format(R"({}{{"id": {}, "count": {}}})", items.empty() ? "" : ", ",
                             quoted(item.id), item.count);
    return fmt::format(R"({{"family": {}, "cost_cents": {}, "items": [{}]}})", quoted(best->family),
                       best->answer.sums[0], items);
}

std::string tradeoffs_text(const FamilyAnswer& family) {
    if (!family.answer.feasible) return "[]";
    if (!family.tradeoffs) return "null";
    std::string text;
    for (const auto& sums : *family.tradeoffs)
        text +=
            fmt::format(R"({}{{"cost_cents": {}, "width_dmm": {}, "heat_mw": {}, "i24_ma": {}}})",
                        text.empty() ? "" : ", ", sums[0], sums[1], sums[2], sums[3]);
    return "[" + text + "]";
}

std::string status_of(const BareAnswer& answer) {
    if (answer.feasible) return answer.proven ? "optimal" : "feasible";
    return answer.proven ? "infeasible" : "unknown";
}

} // namespace

std::string mix_line(const BareMix& mix, const std::vector<FamilyAnswer>& answers,
                     bool with_tradeoffs, std::optional<double> seconds) {
    std::string families;
    for (const FamilyAnswer& each : answers) {
        families +=
            fmt::format(R"({}{{"id": {}, "status": "{}", "cost_cents": {})",
                        families.empty() ? "" : ", ", quoted(each.family), status_of(each.answer),
                        each.answer.feasible ? fmt::format("{}", each.answer.sums[0]) : "null");
        if (with_tradeoffs) families += R"(, "tradeoffs": )" + tradeoffs_text(each);
        families += "}";
    }
    std::string line = fmt::format(R"({{"name": {}, "best": {}, "families": [{}])",
                                   quoted(mix.name), best_text(best_of(answers)), families);
    if (seconds) line += fmt::format(R"(, "seconds": {:.6f})", *seconds);
    return line + "}";
}

} // namespace backplate
