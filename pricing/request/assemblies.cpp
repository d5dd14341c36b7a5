#include "pricing/request/assemblies.h"

#include <algorithm>

#include "pricing/request/check_request.h"
#include "pricing/request/check_values.h"

namespace backplate {
namespace {

std::vector<std::string> assembly_names(const RuleBook& rules) {
    std::vector<std::string> names;
    for (const AssemblyRow& row : rules.assemblies)
        if (std::find(names.begin(), names.end(), row.assembly) == names.end())
            names.push_back(row.assembly);
    return names;
}

void check_name(const Node& asked, const std::string& pointer,
                const std::vector<std::string>& names, std::vector<RequestFault>& faults) {
    const Node* name = asked.find("name");
    if (!name || !name->is(Node::Kind::text)) return; // a fault of its own
    if (std::find(names.begin(), names.end(), name->text) != names.end()) return;
    std::string text = found_text(*name) + " is no assembly";
    if (const std::string nearest = nearest_word(name->text, names); !nearest.empty())
        text += "; nearest: '" + nearest + "'";
    faults.push_back({pointer + "/name", text + "; expected a row of the table assemblies"});
}

PointLine line_of(const AskedAssembly& asked, const AssemblyRow& row, const RuleBook& rules,
                  bool north_america) {
    const Signal& signal = *rules.find_signal(row.signal);
    PointLine line;
    line.signal = row.signal;
    line.wiring = row.wiring.empty() ? signal.wiring : row.wiring;
    line.via = row.via;
    line.fed_from_box = row.fed_from_box;
    line.amps = signal.amps ? signal.amps->number() : 0;
    const auto& volts = north_america ? signal.volts_north_america : signal.volts_iec;
    if (volts) line.volts = volts->number();
    line.count = row.times(asked.quantity) * static_cast<int>(row.count.number());
    line.of_assembly = AssemblyPoints{asked.index, asked.quantity, row.count.id, row.count.text()};
    return line;
}

} // namespace

void check_assemblies(const Node& sent, const RuleBook& rules, std::vector<RequestFault>& faults) {
    const Node* boxes = sent.find("boxes");
    if (!boxes) return;
    const auto names = assembly_names(rules);
    for (std::size_t i = 0; i < boxes->items.size(); ++i) {
        const Node* asked = boxes->items[i].find("assemblies");
        if (!asked) continue;
        const std::string pointer = step_down("/boxes", i) + "/assemblies";
        for (std::size_t k = 0; k < asked->items.size(); ++k)
            check_name(asked->items[k], step_down(pointer, k), names, faults);
    }
}

void add_assembly_points(BidRequest& request, const RuleBook& rules) {
    for (Box& box : request.boxes)
        for (const AskedAssembly& asked : box.assemblies)
            for (const AssemblyRow& row : rules.assemblies)
                if (row.brings == AssemblyRow::Brings::points && row.assembly == asked.name)
                    box.points.push_back(line_of(asked, row, rules, request.north_america));
}

} // namespace backplate
