#include "pricing/takeoff/list_answers.h"

#include <cstdint>

#include "pricing/takeoff/plain_text.h"
#include "pricing/takeoff/tally.h"

namespace backplate {
namespace {

constexpr std::string_view any = "any";
constexpr int most_points = 100'000; ///< of a row

} // namespace

std::string answer_text(const ListAnswer& answer) {
    using Does = ListAnswer::Does;
    switch (answer.does) {
    case Does::accept: return "the proposal";
    case Does::leave_out: return "not counted";
    case Does::count: return "counted";
    case Does::panel: return "panel " + answer.panel;
    case Does::signals: break;
    }
    std::string text;
    for (const auto& [signal, count] : answer.signals)
        text += (text.empty() ? "" : ", ") + signal + " " + std::to_string(count);
    return text;
}

std::optional<SignalCounts> settled_by(const ListAnswer* answer,
                                       const std::optional<SignalCounts>& proposal,
                                       const SignalCounts& signals, int pieces) {
    using Does = ListAnswer::Does;
    if (!answer) return std::nullopt;
    switch (answer->does) {
    case Does::accept: return proposal;
    case Does::leave_out: return SignalCounts{};
    case Does::count: return signals.empty() ? std::nullopt : std::optional(signals);
    case Does::signals:
        for (const auto& [signal, count] : answer->signals)
            if (count * std::int64_t{pieces} > most_points) return std::nullopt;
        return answer->row ? answer->signals : times(answer->signals, pieces);
    case Does::panel: return std::nullopt;
    }
    return std::nullopt;
}

const ListAnswer* ListAnswers::find(const std::string& reason, const std::string& sheet, int row,
                                    const std::string& type) const {
    const ListAnswer* best = nullptr;
    int best_rank = -1;
    for (const ListAnswer& answer : answers) {
        const bool fits = (answer.reason == reason || answer.reason == any) &&
                          (answer.sheet.empty() || answer.sheet == sheet) &&
                          (!answer.row || *answer.row == row) &&
                          (answer.type.empty() || squeeze(answer.type).text == squeeze(type).text);
        const int rank = (answer.row ? 8 : 0) + (answer.type.empty() ? 0 : 4) +
                         (answer.sheet.empty() ? 0 : 2) + (answer.reason == any ? 0 : 1);
        if (!fits || rank <= best_rank) continue;
        best = &answer;
        best_rank = rank;
    }
    return best;
}

} // namespace backplate
