#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"
#include "pricing/values/basis.h"

namespace backplate {

/// One line of the request as its channels see it.
struct DemandLine {
    const PointLine* points = nullptr;
    const Signal* signal = nullptr;       ///< asked
    const Interface* interface = nullptr; ///< null: wired direct
    std::string module_signal;            ///< what the module must serve
    double module_amps = 0;               ///< what a channel of the module must give
    int used = 0, required = 0;
};

/// What one signal of a box asks for.
struct SignalDemand {
    std::string signal;
    int used = 0, required = 0;
};

/// Lines whose channels any of the same groups may carry.
struct MixLine {
    std::string signal;
    double amps = 0;
    bool isolated = false, hart = false;
    bool switched = false;          ///< amps count against the group's ratings
    int channels = 0;               ///< required
    std::vector<std::size_t> lines; ///< of Demand::lines
};

struct Demand {
    std::vector<DemandLine> lines;
    std::vector<SignalDemand> signals; ///< in the order of the request
    std::vector<MixLine> mix;          ///< in the order of the request, none with 0 channels
};

/// Channels that the spare rule asks for over `used` points of a signal: the greater of percent
/// and minimum, rounded up in whole numbers; used 0 gives 0.
/// of_used ceil(u (100 + p) / 100), of_installed ceil(100 u / (100 - p)), p below 100.
/// Source: trade-practice 3.2, 3.3 (checks SP1, SP2).
int required_channels(int used, SpareBasis basis, Percent percent, int minimum);

/// Demand of one box. Spare is counted per signal and given to its lines in proportion, the
/// largest remainder first. With spare of kind `slot` no channels are added. `interface_amps` is
/// the current of an interface's input.
Demand demand_of(const Box& box, const SpareRule& spare, const RuleBook& rules,
                 double interface_amps);

/// Adds the basis of every required count of the box; `first_point` is the place of the box's
/// first entry in the estimate's points.
void record_required(const Demand& demand, const Box& box, const SpareRule& spare,
                     std::size_t first_point, Recorder& recorder);

} // namespace backplate
