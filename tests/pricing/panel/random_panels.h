#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "pricing/mix/arrange.h"
#include "pricing/mix/distribute.h"
#include "tests/pricing/sample_books.h"

namespace backplate {

inline Part priced(const char* kind, std::string key, int units) {
    Part part;
    part.kind = kind;
    part.key = std::move(key);
    part.list = Money::whole(units);
    part.width_mm = 18;
    part.height_mm = 90;
    part.depth_mm = 70;
    return part;
}

inline Part module_part(Draws& draws, const char* key, const char* groups, int most) {
    Part part = priced("module", key, draws.between(most / 3, most));
    part.platform = "compact";
    part.groups = *parse_groups(groups);
    part.width_mm = draws.between(12, 60);
    part.own_a = draws.between(10, 150) / 1000.0;
    part.places = 1;
    part.bus_ma = draws.between(20, 150);
    part.max_c = draws.between(0, 1) ? 60 : 55;
    return part;
}

inline void add_controllers(Draws& draws, std::vector<Part>& parts) {
    Part controller = priced("controller", "C1", draws.between(100, 300));
    controller.platform = "compact";
    controller.places = draws.between(4, 8);
    controller.bus_ma = draws.between(300, 900);
    controller.own_a = 0.2;
    controller.stations_max = draws.between(0, 2);
    controller.pair = true;
    if (draws.chance(50)) controller.groups = *parse_groups("DI*6@0.004;DO*4@0.5/2");
    parts.push_back(controller);
    Part head = priced("head", "H1", draws.between(50, 200));
    head.platform = "compact";
    head.places = 6;
    head.bus_ma = 600;
    head.own_a = 0.1;
    parts.push_back(head);
    Part feed = priced("feed", "F1", draws.between(20, 90));
    feed.platform = "compact";
    feed.places = 1;
    feed.bus_ma = 500;
    parts.push_back(feed);
}

inline void add_supplies(Draws& draws, std::vector<Part>& parts) {
    for (const double amps : {1.5, 3.0, 6.0}) {
        const int price = static_cast<int>(amps * 22); // several small ones may be the cheaper
        Part supply = priced("supply", "S" + number_text(amps), draws.between(price, price + 50));
        supply.rated_a = amps;
        supply.width_mm = 20 + amps * 8;
        supply.efficiency_row = "supply_loss";
        supply.max_c = 70;
        supply.input_form = "ac_dc";
        parts.push_back(supply);
    }
    Part decoupler = priced("redundancy", "RED", 60);
    decoupler.rated_a = 10;
    decoupler.own_w = 2;
    parts.push_back(decoupler);
    for (const int watt_hours : {2, 40}) {
        Part backup = priced("backup", "UPS" + std::to_string(watt_hours), 90 + 4 * watt_hours);
        backup.rated_a = 10;
        backup.capacity_wh = watt_hours;
        backup.own_w = 3;
        parts.push_back(backup);
    }
    Part fan = priced("cooling", "FAN", draws.between(30, 200));
    fan.stage = "circulation_fan";
    fan.own_a = 0.15;
    parts.push_back(fan);
}

inline void add_enclosure(std::vector<Part>& parts, const char* key, int price, double width,
                          double height, bool floor) {
    Part enclosure = priced("enclosure", key, price);
    enclosure.width_mm = width;
    enclosure.height_mm = height;
    enclosure.depth_mm = floor ? 500 : 250;
    enclosure.plate_width_mm = width - 50;
    enclosure.plate_height_mm = height - 50;
    enclosure.ip_mark = "IP66";
    enclosure.material = "painted_steel";
    enclosure.mounting = floor ? "floor" : "wall";
    if (parts.size() % 2 == 1) { // less work on it than on the next one
        enclosure.prep_minutes = 20;
        enclosure.cutout_factor = 0.8;
    }
    parts.push_back(enclosure);
}

inline void add_plates(std::vector<Part>& parts) {
    for (const int side : {500, 700, 1000}) {
        Part plate = priced("plate", "PL" + std::to_string(side), side / 10);
        plate.width_mm = plate.height_mm = plate.depth_mm = std::nullopt;
        plate.plate_width_mm = side;
        plate.plate_height_mm = side + 100;
        parts.push_back(plate);
    }
}

inline void add_small_parts(std::vector<Part>& parts) {
    Part terminal = priced("terminal", "T", 1);
    terminal.width_mm = 5.2;
    parts.push_back(terminal);
    parts.push_back(priced("rail", "R", 6));
    parts.push_back(priced("wire", "W", 1));
    for (const double width : {40, 60}) {
        Part duct = priced("duct", "D" + number_text(width), static_cast<int>(width) / 5);
        duct.width_mm = width;
        parts.push_back(duct);
    }
    Part channel = priced("protection", "P", 25);
    channel.rated_a = 4;
    parts.push_back(channel);
}

inline void add_mains(Draws& draws, std::vector<Part>& parts, const char* kind, const char* key,
                      double amps, int phases, int poles, const char* form) {
    Part part = priced(kind, key, draws.between(15, 60));
    part.rated_a = amps;
    part.phases = phases;
    part.poles = poles;
    part.input_form = form;
    part.width_mm = 18 * poles;
    parts.push_back(part);
}

/// Incoming devices, switches, thicker wires and terminals; a larger breaker may be the cheaper.
inline void add_incoming(Draws& draws, std::vector<Part>& parts) {
    for (const char* kind : {"incoming", "main_switch"}) {
        const std::string name(1, kind[0]);
        add_mains(draws, parts, kind, (name + "1").c_str(), 6, 1, 1, "");
        add_mains(draws, parts, kind, (name + "2").c_str(), 10, 1, 2, "ac_dc");
        add_mains(draws, parts, kind, (name + "3").c_str(), 16, 3, 3, "");
    }
    if (draws.chance(30)) return; // a book without cross-sections
    for (const double section : {1.0, 2.5}) {
        Part wire = priced("wire", "W" + number_text(section), draws.between(1, 3));
        wire.section_mm2 = section;
        parts.push_back(wire);
    }
    Part terminal = priced("terminal", "T4", draws.between(1, 3));
    terminal.width_mm = draws.between(4, 9);
    terminal.section_mm2 = 4;
    parts.push_back(terminal);
}

inline std::vector<Part> random_book(Draws& draws) {
    std::vector<Part> parts;
    add_controllers(draws, parts);
    parts.push_back(module_part(draws, "M1", "DI*8@0.004", 90));
    parts.push_back(module_part(draws, "M2", "DI*16@0.003", 160));
    parts.push_back(module_part(draws, "M3", "DO*8@0.5/2", 110));
    parts.push_back(module_part(draws, "M4", "DI*8@0.004;DO*8@0.5/3", 170));
    parts.push_back(module_part(draws, "M5", "AI_MA|RTD*4@0.025", 240));
    parts.push_back(module_part(draws, "M6", "DI*8@0.004;AI_MA*4@0.025", 240));
    add_supplies(draws, parts);
    add_enclosure(parts, "E1", draws.between(100, 500), 400, 500, false);
    add_enclosure(parts, "E2", draws.between(100, 500), 600, 600, false);
    add_enclosure(parts, "E3", draws.between(100, 700), 800, 1000, false);
    add_enclosure(parts, "E4", draws.between(100, 700), 800, 1200, true);
    add_plates(parts);
    add_small_parts(parts);
    add_incoming(draws, parts);
    return parts;
}

/// Half of the requests wish for something beside the plain panel.
inline std::string random_choices(Draws& draws) {
    if (draws.chance(50)) return {};
    std::string text;
    const auto add = [&](int percent, const std::string& member) {
        if (draws.chance(percent)) text += (text.empty() ? "" : ", ") + member;
    };
    add(35, R"("redundant_supply": true)");
    add(25, R"("redundant_controller": true)");
    add(35, R"("backup_minutes": )" + std::to_string(draws.between(1, 90)));
    const int housing = draws.between(1, 6);
    if (housing == 1) add(100, R"("enclosure": "by_client")");
    if (housing == 2) add(100, R"("enclosure": "plate_only")");
    if (housing == 3)
        add(100, R"("enclosure": {"existing_plate_mm": {"width": 700, "height": 900}})");
    return R"(, "choices": {)" + text + "}";
}

/// One request in two has other mains than one phase, neutral and one feed.
inline std::string random_mains(Draws& draws) {
    switch (draws.between(1, 8)) {
    case 1: return R"(, "supply": {"neutral": false})";
    case 2: return R"(, "supply": {"feeds": 2})";
    case 3: return R"(, "supply": {"volts": 110, "hz": 0})";
    case 4: return R"(, "supply": {"volts": 400, "phases": 3})";
    default: return {};
    }
}

inline std::string random_request(Draws& draws) {
    const std::string outputs = R"({"signal": "DO", "amps": )" +
                                number_text(draws.between(1, 8) * 0.05) + R"(, "count": )" +
                                std::to_string(draws.between(1, 14)) + "}";
    const std::string others = points_text({{"DI", draws.between(1, 24)},
                                            {"AI_MA", draws.between(0, 4)},
                                            {"RTD", draws.between(0, 3)}});
    const std::string site = R"(, "site": {"ambient_c": [0, )" +
                             std::to_string(draws.between(25, 45)) + "]" + random_mains(draws) +
                             "}";
    const std::string spare = draws.chance(50) ? R"(, "spare": {"percent": {"default": 20}})" : "";
    const std::string alike =
        draws.chance(30) ? R"(, "quantity": )" + std::to_string(draws.between(2, 6)) : "";
    return box_request(outputs + ", " + others, alike + site + random_choices(draws), spare);
}

/// Every cover that the rule of filling gives, none cut away.
class EveryCover {
public:
    explicit EveryCover(const MixProblem& problem) : problem_(problem) {}

    std::vector<MixMember> all() {
        std::vector<int> demand;
        for (const MixLine& line : problem_.lines) demand.push_back(line.channels);
        std::vector<MixMember> members;
        for (const Spread& onboard : spreads(*problem_.controller.part, problem_, demand, false)) {
            MixMember start;
            use(start, problem_.controller, onboard);
            if (problem_.controller.part->groups.empty()) start.uses.clear();
            std::vector<int> open = demand;
            for (std::size_t i = 0; i < open.size(); ++i) open[i] -= onboard.carried[i];
            extend(start, open, members);
        }
        return members;
    }

private:
    void use(MixMember& member, const MixModule& module, const Spread& spread) const {
        member.sums += module.sums;
        member.kinds |= module.kinds;
        for (std::size_t i = 0; i < spread.carried.size(); ++i) {
            member.sums[MixSums::current] += spread.carried[i] * module.channel_current[i];
            member.sums[MixSums::heat] += spread.carried[i] * module.channel_heat[i];
            member.sums[MixSums::terminals] += spread.extra[i] * problem_.extra[i].terminals;
            member.sums[MixSums::wires] += spread.extra[i] * problem_.extra[i].wires;
            member.sums[MixSums::tested] += spread.extra[i] * problem_.extra[i].tested;
        }
        member.uses.push_back({module.part, spread.carried, spread.extra});
    }

    /// The first open line takes a module, so a set of modules comes up in few orders only.
    void extend(const MixMember& member, const std::vector<int>& open,
                std::vector<MixMember>& members) const {
        const auto first = std::find_if(open.begin(), open.end(), [](int n) { return n > 0; });
        if (first == open.end()) {
            members.push_back(member);
            return;
        }
        const auto line = static_cast<std::size_t>(first - open.begin());
        for (const MixModule& module : problem_.modules)
            for (const Spread& spread : spreads(*module.part, problem_, open, false)) {
                if (spread.carried[line] == 0) continue;
                MixMember next = member;
                use(next, module, spread);
                std::vector<int> left = open;
                for (std::size_t i = 0; i < left.size(); ++i) left[i] -= spread.carried[i];
                extend(next, left, members);
            }
    }

    const MixProblem& problem_;
};

} // namespace backplate
