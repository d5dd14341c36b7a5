#pragma once

#include <map>
#include <optional>
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
    const Signal* module = nullptr;       ///< what the module must serve
    const Interface* interface = nullptr; ///< null: wired direct
    std::string module_signal;            ///< key of `module`
    double module_amps = 0;               ///< what a channel of the module must give
    int used = 0, required = 0;
};

/// What one signal of a box asks for.
struct SignalDemand {
    std::string signal;
    int used = 0, required = 0;
    int minimum = 0;         ///< spare channels at least: of channels and modules the greater
    int module_channels = 0; ///< what a spare module counts; 0: none asked
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

/// By signal: channels of the kind of module that carries most of it, as a spare module counts.
using ModuleChannels = std::map<std::string, int>;

/// By signal: channels of the job's spare that one box takes; nothing where spare counts by box.
using PlacedSpare = std::optional<std::map<std::string, int>>;

/// Channels that the spare rule asks for over `used` points of a signal: the greater of percent
/// and minimum, rounded up in whole numbers; used 0 gives 0.
/// of_used ceil(u (100 + p) / 100), of_installed ceil(100 u / (100 - p)), p below 100.
/// Source: trade-practice 3.2, 3.3 (checks SP1, SP2).
int required_channels(int used, SpareBasis basis, Percent percent, int minimum);

/// Demand of one box. Spare is counted per signal and given to its lines in proportion, the
/// largest remainder first. With spare of kind `slot` no channels are added. `interface_amps`, by
/// the lines of the box: what the interfaces of one channel draw from an output of the module; a
/// line without an entry has none. Spare modules count by `module_channels`; a signal without an
/// entry has none. Where the spare counts over the job, `placed` is what this box takes of it.
Demand demand_of(const Box& box, const SpareRule& spare, const RuleBook& rules,
                 const std::vector<double>& interface_amps = {},
                 const ModuleChannels& module_channels = {}, const PlacedSpare& placed = {});

/// Channels of spare that the whole job asks for, by signal: over the points of all boxes, each as
/// often as it stands in the job.
std::map<std::string, int> spare_of_job(const BidRequest& request);

/// Pointer to the line's place in the request: its points, or the assembly that it came with.
std::string line_path(const Box& box, const PointLine& points);

/// Adds the basis of every required count of the box; `first_point` is the place of the box's
/// first entry in the estimate's points, `placed` its share of a spare over the job.
void record_required(const Demand& demand, const Box& box, const BidRequest& request,
                     std::size_t first_point, const PlacedSpare& placed, Recorder& recorder);

} // namespace backplate
