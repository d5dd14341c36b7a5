#include "pricing/cost/drivers.h"

#include <algorithm>
#include <array>

namespace backplate {
namespace {

using Count = int (*)(const BoxCounts&, const std::string&);

struct NamedCount {
    std::string_view name;
    Count count;
};

template <int BoxCounts::*member> int field(const BoxCounts& counts, const std::string&) {
    return counts.*member;
}

int one(const BoxCounts&, const std::string&) { return 1; }
int modules_and_controllers(const BoxCounts& counts, const std::string&) {
    return counts.modules + counts.controllers;
}
int all_tested(const BoxCounts& counts, const std::string&) { return counts.channels_tested(); }

int entry(const std::map<std::string, int>& table, const std::string& key) {
    const auto found = table.find(key);
    return found == table.end() ? 0 : found->second;
}

/// `of` is a class, or two joined by " or ".
int points_of_class(const BoxCounts& counts, const std::string& of) {
    const auto joint = of.find(" or ");
    if (joint == std::string::npos) return entry(counts.points_by_class, of);
    return entry(counts.points_by_class, of.substr(0, joint)) +
           entry(counts.points_by_class, of.substr(joint + 4));
}
int points_of_signal(const BoxCounts& counts, const std::string& of) {
    return entry(counts.points_by_signal, of);
}
int modules_of_signal(const BoxCounts& counts, const std::string& of) {
    return entry(counts.modules_by_signal, of);
}
int tested_of_class(const BoxCounts& counts, const std::string& of) {
    return entry(counts.tested_by_class, of);
}

constexpr std::array<NamedCount, 33> plain_drivers{{
    {"job", one},
    {"box", one},
    {"bill line", field<&BoxCounts::bill_lines>},
    {"controller", field<&BoxCounts::controllers>},
    {"module", field<&BoxCounts::modules>},
    {"module or controller", modules_and_controllers},
    {"enclosure wall", field<&BoxCounts::enclosures_wall>},
    {"enclosure floor", field<&BoxCounts::enclosures_floor>},
    {"cut-out round", field<&BoxCounts::cut_round>},
    {"cut-out rectangular", field<&BoxCounts::cut_rectangular>},
    {"cut-out gland", field<&BoxCounts::cut_gland>},
    {"rail row", field<&BoxCounts::rail_rows>},
    {"device", field<&BoxCounts::devices>},
    {"device small", field<&BoxCounts::devices_small>},
    {"device large", field<&BoxCounts::devices_large>},
    {"device on plate", field<&BoxCounts::devices_on_plate>},
    {"door device", field<&BoxCounts::door_devices>},
    {"operator panel", field<&BoxCounts::operator_panels>},
    {"terminal", field<&BoxCounts::terminals>},
    {"internal wire", field<&BoxCounts::wires>},
    {"shield", field<&BoxCounts::shields>},
    {"network lead", field<&BoxCounts::network_leads>},
    {"point", field<&BoxCounts::points>},
    {"loop", field<&BoxCounts::loops>},
    {"screen", field<&BoxCounts::screens>},
    {"network", field<&BoxCounts::networks>},
    {"network device", field<&BoxCounts::network_devices>},
    {"soft point", field<&BoxCounts::soft_points>},
    {"assembly minute", field<&BoxCounts::assembly_minutes>},
    {"sheet new", field<&BoxCounts::sheets_new>},
    {"sheet typical", field<&BoxCounts::sheets_typical>},
    {"sheet generated", field<&BoxCounts::sheets_generated>},
    {"channel tested", all_tested},
}};

bool ends_with(std::string_view text, std::string_view end) { return text.ends_with(end); }

Driver hours_driver(std::string_view list) {
    Driver driver;
    while (!list.empty()) {
        const auto end = std::min(list.find(' '), list.size());
        if (end > 0) driver.activities.emplace_back(list.substr(0, end));
        list.remove_prefix(std::min(end + 1, list.size()));
    }
    const bool all = driver.activities == std::vector<std::string>{"all", "other"};
    driver.other_classes = driver.activities == std::vector<std::string>{"all", "other", "classes"};
    if (all || driver.other_classes) {
        driver.activities.clear();
        driver.per_job = true;
    }
    return driver;
}

} // namespace

int BoxCounts::channels_tested() const {
    int sum = 0;
    for (const auto& [work_class, count] : tested_by_class) sum += count;
    return sum;
}

DriverLookup find_driver(const std::string& name) {
    const std::string_view view = name;
    if (view.starts_with("hours: ")) return {hours_driver(view.substr(7)), false};
    for (const NamedCount& row : plain_drivers)
        if (row.name == view) return {{row.count, "", {}, name == "job"}, false};
    if (view.starts_with("point ")) return {{points_of_signal, name.substr(6), {}, false}, false};
    if (view.starts_with("module ")) return {{modules_of_signal, name.substr(7), {}, false}, false};
    if (ends_with(view, " point"))
        return {{points_of_class, name.substr(0, name.size() - 6), {}, false}, false};
    if (view.starts_with("channel ") && ends_with(view, " tested"))
        return {{tested_of_class, name.substr(8, name.size() - 15), {}, false}, false};
    return {{}, true};
}

} // namespace backplate
