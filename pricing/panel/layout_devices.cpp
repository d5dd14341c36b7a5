#include <algorithm>
#include <array>
#include <map>

#include "pricing/panel/devices.h"
#include "pricing/panel/layout.h"
#include "pricing/panel/line_wiring.h"

namespace backplate {
namespace {

constexpr auto band_words = std::array{"mains", "supply", "platform", "other", "terminals"};

struct Letter {
    const char* kind;
    const char* letter;
};
constexpr auto letters =
    std::array{Letter{"controller", "A"},  Letter{"head", "A"},       Letter{"feed", "A"},
               Letter{"module", "A"},      Letter{"network", "A"},    Letter{"main_switch", "Q"},
               Letter{"incoming", "Q"},    Letter{"protection", "F"}, Letter{"supply", "T"},
               Letter{"transformer", "T"}, Letter{"redundancy", "R"}, Letter{"backup", "G"},
               Letter{"interface", "K"},   Letter{"heater", "E"},     Letter{"cooling", "E"},
               Letter{"door", "P"}};

std::string letter_of(const std::string& kind) {
    const auto found = std::find_if(letters.begin(), letters.end(),
                                    [&](const Letter& row) { return kind == row.kind; });
    return found == letters.end() ? "U" : found->letter;
}

/// Within a band: what is warm, or lives from warming, stands farthest from what it would hurt.
int rank_of(const std::string& kind) {
    constexpr auto order =
        std::array{"main_switch", "incoming", "network", "protection", "backup", "redundancy",
                   "transformer", "supply",   "",        "interface",  "heater"};
    const auto place = [&](const std::string& word) {
        return static_cast<int>(std::find(order.begin(), order.end(), word) - order.begin());
    };
    const int own = place(kind);
    return own < static_cast<int>(order.size()) ? own : place("");
}

bool of_platform(const std::string& kind) {
    return kind == "controller" || kind == "head" || kind == "feed" || kind == "module";
}

PlacedDevice device_of(const BillItem& item) {
    PlacedDevice device;
    if (item.part) {
        device.part = item.part->key;
        device.kind = item.part->kind;
        device.width_mm = item.part->width_mm.value_or(item.width_mm);
        device.height_mm = item.part->height_mm.value_or(0);
        device.depth_mm = item.part->depth_mm.value_or(0);
    }
    if (item.equipment) {
        if (!item.part) device.kind = "equipment";
        device.text = item.equipment->asked->text;
        device.width_mm = item.equipment->width_mm;
        device.height_mm = item.equipment->height_mm;
        device.depth_mm = item.equipment->depth_mm;
    }
    return device;
}

double side_of(const RoomRules& rules, Band band) {
    const std::array<const RoomBand*, 5> bands{&rules.mains, &rules.supply, &rules.platform,
                                               &rules.other, &rules.terminals};
    const OptionalRule& side = bands[static_cast<std::size_t>(band)]->side_mm;
    return side ? side->number() : 0;
}

/// Controller, heads and modules, each at its place of the bus.
void add_stations(std::vector<RailDevice>& devices, const PanelDesign& design, double side) {
    const auto& stations = design.arrangement->stations;
    for (std::size_t station = 0; station < stations.size(); ++station)
        for (std::size_t place = 0; place < stations[station].places.size(); ++place) {
            const Part& part = *stations[station].places[place].part;
            if (part.width_mm.value_or(0) <= 0) continue;
            RailDevice device{device_of({&part, nullptr, part.kind, 1}), Band::platform, side};
            device.device.station = static_cast<int>(station);
            device.device.place = static_cast<int>(place);
            device.joined = place > 0 && (part.bus_ma > 0 || part.kind == "feed");
            devices.push_back(std::move(device));
        }
}

/// Does the bill line stand in a station already?
bool in_station(const BillItem& item) { return !item.equipment && of_platform(item.part->kind); }

void add_pieces(std::vector<TerminalCount>& counts, const Part* part, std::int64_t pieces) {
    if (part && pieces > 0) counts.push_back({part, pieces});
}

/// Takes so many pieces of the part away, as far as there are any; what was taken.
std::int64_t take(std::vector<TerminalCount>& counts, const Part* part, std::int64_t pieces) {
    for (TerminalCount& count : counts) {
        if (count.part != part) continue;
        pieces = std::min(pieces, count.pieces);
        count.pieces -= pieces;
        return pieces;
    }
    return 0;
}

/// Terminals of the channels at mains voltage, wired one way.
std::int64_t mains_pieces(const SearchFacts& search) {
    std::int64_t steps = 0;
    for (std::size_t i = 0; i < search.facts.wiring.size(); ++i) {
        if (!search.facts.demand.lines[i].signal->mains_level) continue;
        for (const ChannelWiring* way :
             {&search.facts.wiring[i].direct, &search.facts.wiring[i].via})
            steps += way->channels * piece_steps(way->terminals);
    }
    return whole_pieces(steps);
}

} // namespace

std::vector<RailDevice> rail_devices(const PanelDesign& design, const SearchFacts& search) {
    const RoomRules& rules = search.rules->room;
    std::vector<RailDevice> devices;
    add_stations(devices, design, side_of(rules, Band::platform));
    for (const BillItem& item : design.bill) {
        if (item.role == "accessory" || in_station(item)) continue;
        const auto band = band_on_rail(item);
        if (!band || width_on_rail(item, rules) <= 0) continue;
        RailDevice device{device_of(item), *band, side_of(rules, *band)};
        for (std::int64_t i = 0; i < item.quantity; ++i) devices.push_back(device);
    }
    for (RailDevice& device : devices)
        device.device.band = band_words[static_cast<std::size_t>(device.band)];
    std::stable_sort(devices.begin(), devices.end(), [](const RailDevice& a, const RailDevice& b) {
        if (a.band != b.band) return a.band < b.band;
        return a.band != Band::platform && rank_of(a.device.kind) < rank_of(b.device.kind);
    });
    return devices;
}

std::vector<PlacedDevice> other_devices(const PanelDesign& design) {
    std::vector<PlacedDevice> devices;
    for (const BillItem& item : design.bill) {
        const std::string kind = item.part ? item.part->kind : "equipment";
        const bool door = item.equipment && item.equipment->where == "door";
        if (kind != "cooling" && !item.equipment) continue;
        if (item.equipment && item.equipment->where == "outside") continue;
        PlacedDevice device = device_of(item);
        if (!door && kind != "cooling" && device.width_mm > 0) continue; // on the rail
        device.face = Face::inside;
        device.placed = false;
        if (door) device.face = Face::door;
        if (kind == "cooling" && design.stage.name == "filter_fan") device.face = Face::door;
        if (kind == "cooling" && design.stage.name != "filter_fan" &&
            design.stage.name != "circulation_fan")
            device.face = Face::wall;
        for (std::int64_t i = 0; i < item.quantity; ++i) devices.push_back(device);
    }
    return devices;
}

StripTerminals strip_terminals(const PanelDesign& design, const SearchFacts& search) {
    StripTerminals result;
    result.signals = design.terminal_counts;
    const auto row = search.rules->terminals.find("incoming");
    const std::int64_t feeds = search.facts.box->site.feeds;
    const std::int64_t all =
        row == search.rules->terminals.end() ? 0 : whole_pieces(feeds * piece_steps(row->second));
    std::int64_t earthed = 0;
    for (const TerminalFunction& own : search.rules->terminal_functions)
        if (own.channel == "incoming") earthed += feeds * own.pieces;
    earthed = std::min(earthed, all);
    const IncomingChoice& incoming = design.incoming;
    add_pieces(result.mains, incoming.terminal,
               take(result.signals, incoming.terminal, all - earthed));
    add_pieces(result.mains, incoming.earth_terminal,
               take(result.signals, incoming.earth_terminal, earthed));
    add_pieces(result.mains, search.parts.terminal,
               take(result.signals, search.parts.terminal, mains_pieces(search)));
    return result;
}

void name_devices(std::vector<PlacedDevice>& devices) {
    std::map<std::string, int> last;
    for (PlacedDevice& device : devices) {
        if (device.kind == "terminal") continue;
        const std::string letter = letter_of(device.kind);
        const int number = ++last[letter];
        if (device.id.empty()) device.id = letter + steps_text(number, 0);
    }
}

} // namespace backplate
