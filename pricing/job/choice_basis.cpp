#include <algorithm>

#include "pricing/job/findings.h"
#include "pricing/job/panel_basis.h"

namespace backplate {
namespace {

std::string number(std::size_t value) { return steps_text(static_cast<std::int64_t>(value), 0); }

/// Kept modules: at least so many of them stand in the panel.
void record_kept(const Box& box, const BoxResult& result, Recorder& recorder) {
    const std::string at = box_path(box.index);
    for (std::size_t kept = 0; kept < box.choices.keep.size(); ++kept)
        for (std::size_t i = 0; i < result.modules.size(); ++i) {
            const ModuleResult& module = result.modules[i];
            if (module.part != box.choices.keep[kept].part || module.role != "module") continue;
            const std::string least = steps_text(box.choices.keep[kept].quantity, 0);
            const std::string count = steps_text(module.quantity, 0);
            recorder.add({at + "/modules/" + number(i) + "/quantity",
                          count,
                          "pieces",
                          "max(a, " + count + ")",
                          "",
                          {from_request(at + "/choices/keep/" + number(kept) + "/quantity", least,
                                        "pieces")},
                          "kept by hand: the mix takes at least so many"});
        }
}

} // namespace

void record_choices(const Estimate& estimate, Recorder& recorder) {
    for (std::size_t i = 0; i < estimate.boxes.size(); ++i) {
        const Box& box = estimate.request.boxes[i];
        record_kept(box, estimate.boxes[i], recorder);
        const auto& replaced = box.choices.replace;
        for (std::size_t line = 0; line < estimate.bill.size(); ++line) {
            const BillLine& on_bill = estimate.bill[line];
            if (on_bill.box != box.name) continue;
            const auto found =
                std::find_if(replaced.begin(), replaced.end(),
                             [&](const ReplacedPart& each) { return each.by == on_bill.part; });
            if (found == replaced.end()) continue;
            const std::string count = steps_text(on_bill.quantity, 0);
            recorder.add({"/bill/" + number(line) + "/quantity",
                          count,
                          on_bill.unit,
                          count,
                          "",
                          {},
                          "in place of " + found->part + " by hand, choices/replace/" +
                              number(static_cast<std::size_t>(found - replaced.begin()))});
        }
    }
}

} // namespace backplate
