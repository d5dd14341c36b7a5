#include "pricing/takeoff/list_answers.h"

#include "pricing/takeoff/plain_text.h"
#include "pricing/takeoff/tally.h"

namespace backplate {

std::optional<SignalCounts> settled_by(const ListAnswer* answer,
                                       const std::optional<SignalCounts>& proposal,
                                       const SignalCounts& signals, int pieces) {
    using Does = ListAnswer::Does;
    if (!answer) return std::nullopt;
    switch (answer->does) {
    case Does::accept: return proposal;
    case Does::leave_out: return SignalCounts{};
    case Does::count: return signals.empty() ? std::nullopt : std::optional(signals);
    case Does::signals: return answer->row ? answer->signals : times(answer->signals, pieces);
    case Does::panel: return std::nullopt;
    }
    return std::nullopt;
}

const ListAnswer* ListAnswers::find(const std::string& reason, const std::string& sheet, int row,
                                    const std::string& type) const {
    const ListAnswer* best = nullptr;
    int best_rank = -1;
    for (const ListAnswer& answer : answers) {
        const bool fits = answer.reason == reason &&
                          (answer.sheet.empty() || answer.sheet == sheet) &&
                          (!answer.row || *answer.row == row) &&
                          (answer.type.empty() || squeeze(answer.type).text == squeeze(type).text);
        const int rank =
            (answer.row ? 4 : 0) + (answer.type.empty() ? 0 : 2) + (answer.sheet.empty() ? 0 : 1);
        if (!fits || rank <= best_rank) continue;
        best = &answer;
        best_rank = rank;
    }
    return best;
}

} // namespace backplate
