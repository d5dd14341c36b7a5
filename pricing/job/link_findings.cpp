#include "pricing/job/findings.h"
#include "pricing/panel/link_facts.h"
#include "pricing/values/document_units.h"

namespace backplate {

void link_finding(const Box& box, const PanelChoice& choice, FindingSink& sink) {
    const LinkRow* row = link_of(box, sink.rules());
    if (!row) return;
    const std::string at = box_path(box.index) + "/link";
    if (box.link.length_m > row->most_m.number())
        sink.add("LINK_TOO_LONG", at + "/length_m",
                 {{"box", box.name},
                  {"length", distance_text(box.link.length_m, sink.inch())},
                  {"medium", row->medium},
                  {"most", distance_text(row->most_m.number(), sink.inch())}});
    const SearchFacts& search = *choice.search;
    if (!row->part_kind.empty() && !link_part(*search.book, search.facts, *row))
        sink.add("LINK_PART_MISSING", at + "/medium",
                 {{"box", box.name}, {"medium", row->medium}, {"function", row->function}});
}

} // namespace backplate
