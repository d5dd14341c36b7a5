#pragma once

#include "tests/pricing/panel/random_panels.h"

namespace backplate {

/// Supplies at 12 V, transformers to 24 V AC and the fuses of their sides.
inline void add_group_parts(Draws& draws, std::vector<Part>& parts) {
    for (const double amps : {2.0, 5.0}) {
        Part supply = priced("supply", "V" + number_text(amps), draws.between(30, 90));
        supply.rated_a = amps;
        supply.output_v = 12;
        supply.efficiency_row = "supply_loss";
        supply.max_c = 70;
        supply.input_form = "ac_dc";
        parts.push_back(supply);
    }
    for (const double volts : {230.0, 400.0})
        for (const double va : {40.0, 100.0, 250.0}) {
            Part transformer = priced("transformer", "T" + number_text(volts) + number_text(va),
                                      draws.between(40, 90));
            transformer.rated_va = va;
            transformer.output_v = 24;
            transformer.input_min_v = volts * 0.9;
            transformer.input_max_v = volts * 1.1;
            transformer.width_mm = draws.between(50, 110);
            if (draws.chance(70)) transformer.own_w = va / 10;
            parts.push_back(transformer);
        }
    for (const double amps : {0.25, 0.5, 1.0, 2.0, 4.0, 6.0, 10.0, 16.0}) {
        Part fuse = priced("protection", "CF" + number_text(amps), draws.between(5, 15));
        fuse.function = control_fuse;
        fuse.rated_a = amps;
        fuse.input_max_v = 690;
        parts.push_back(fuse);
    }
}

/// A random request with its outputs parted, equipment at other voltages, or both.
inline std::string random_group_request(Draws& draws) {
    std::string text = random_request(draws);
    std::string equipment;
    const auto add = [&](const char* name, const char* volts, double amps, int watts) {
        equipment += std::string(equipment.empty() ? "" : ", ") + R"({"text": ")" + name +
                     R"(", "quantity": 2, "where": "outside", "price": "0.00", "watts": )" +
                     std::to_string(watts) + ", " + volts + R"(, "amps": )" + number_text(amps) +
                     "}";
    };
    if (draws.chance(50))
        add("camera", R"("volts": 12, "current": "dc")", draws.between(2, 20) * 0.1, 0);
    if (draws.chance(50))
        add("valve", R"("volts": 24, "current": "ac")", draws.between(2, 12) * 0.1, 0);
    if (draws.chance(25))
        add("pump", R"("volts": 230, "current": "ac")", draws.between(1, 9) * 0.1, 0);
    const bool parted = equipment.empty() || draws.chance(50);
    if (!equipment.empty())
        text.insert(text.find(R"(, "site")"), R"(, "equipment": [)" + equipment + "]");
    if (!parted) return text;
    const std::string choice = R"("separate_output_supply": true)";
    const std::string open = R"("choices": {)";
    const auto at = text.find(open);
    if (at == std::string::npos)
        text.insert(text.find(R"(, "site")"), ", " + open + choice + "}");
    else
        text.insert(at + open.size(), choice + (text[at + open.size()] == '}' ? "" : ", "));
    return text;
}

} // namespace backplate
