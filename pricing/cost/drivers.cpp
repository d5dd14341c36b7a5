#include "pricing/cost/drivers.h"

#include <algorithm>
#include <array>

namespace backplate {
namespace {

using Count = int (*)(const BoxCounts&, const std::string&);

struct NamedCount {
    std::string_view name;
    Count count;
    int parts = 1; ///< the count is in so many parts of a whole
};

template <int BoxCounts::*member> int field(const BoxCounts& counts, const std::string&) {
    return counts.*member;
}

int one(const BoxCounts&, const std::string&) { return 1; }
int modules_and_controllers(const BoxCounts& counts, const std::string&) {
    return counts.modules + counts.controllers;
}
int wall_to_prepare(const BoxCounts& counts, const std::string&) {
    return counts.own_preparation ? 0 : counts.enclosures_wall;
}
int floor_to_prepare(const BoxCounts& counts, const std::string&) {
    return counts.own_preparation ? 0 : counts.enclosures_floor;
}
template <int BoxCounts::*member> int opening(const BoxCounts& counts, const std::string&) {
    return counts.*member * counts.cutout_hundredths;
}
int translated_sheets(const BoxCounts& counts, const std::string&) {
    return (counts.sheets_new + counts.sheets_typical + counts.sheets_generated) *
           counts.further_languages;
}
int translated_screens(const BoxCounts& counts, const std::string&) {
    return counts.screens * counts.further_languages;
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

constexpr auto plain_drivers =
    std::array{NamedCount{"job", field<&BoxCounts::jobs>},
               NamedCount{"box", one},
               NamedCount{"bill line", field<&BoxCounts::bill_lines>},
               NamedCount{"controller", field<&BoxCounts::controllers>},
               NamedCount{"module", field<&BoxCounts::modules>},
               NamedCount{"module or controller", modules_and_controllers},
               NamedCount{"enclosure wall", field<&BoxCounts::enclosures_wall>},
               NamedCount{"enclosure floor", field<&BoxCounts::enclosures_floor>},
               NamedCount{"enclosure joint", field<&BoxCounts::enclosure_joints>},
               NamedCount{"enclosure wall to prepare", wall_to_prepare},
               NamedCount{"enclosure floor to prepare", floor_to_prepare},
               NamedCount{"minute of the enclosure", field<&BoxCounts::preparation_minutes>},
               NamedCount{"cut-out round", opening<&BoxCounts::cut_round>, 100},
               NamedCount{"cut-out rectangular", opening<&BoxCounts::cut_rectangular>, 100},
               NamedCount{"cut-out gland", opening<&BoxCounts::cut_gland>, 100},
               NamedCount{"rail row", field<&BoxCounts::rail_rows>},
               NamedCount{"device", field<&BoxCounts::devices>},
               NamedCount{"device small", field<&BoxCounts::devices_small>},
               NamedCount{"device large", field<&BoxCounts::devices_large>},
               NamedCount{"device on plate", field<&BoxCounts::devices_on_plate>},
               NamedCount{"door device", field<&BoxCounts::door_devices>},
               NamedCount{"operator panel", field<&BoxCounts::operator_panels>},
               NamedCount{"terminal", field<&BoxCounts::terminals>},
               NamedCount{"internal wire", field<&BoxCounts::wires>},
               NamedCount{"shield", field<&BoxCounts::shields>},
               NamedCount{"network lead", field<&BoxCounts::network_leads>},
               NamedCount{"point", field<&BoxCounts::points>},
               NamedCount{"loop", field<&BoxCounts::loops>},
               NamedCount{"screen", field<&BoxCounts::screens>},
               NamedCount{"network", field<&BoxCounts::networks>},
               NamedCount{"network device", field<&BoxCounts::network_devices>},
               NamedCount{"soft point", field<&BoxCounts::soft_points>},
               NamedCount{"assembly minute", field<&BoxCounts::assembly_minutes>},
               NamedCount{"sheet new", field<&BoxCounts::sheets_new>},
               NamedCount{"sheet typical", field<&BoxCounts::sheets_typical>},
               NamedCount{"sheet generated", field<&BoxCounts::sheets_generated>},
               NamedCount{"channel tested", all_tested},
               NamedCount{"further identical box", field<&BoxCounts::further_boxes>},
               NamedCount{"power wire large", field<&BoxCounts::power_wires_large>},
               NamedCount{"safety controller", field<&BoxCounts::safety_controllers>},
               NamedCount{"witness day", field<&BoxCounts::witness_hundredths>, 100},
               NamedCount{"site day", field<&BoxCounts::site_hundredths>, 100},
               NamedCount{"site visit", field<&BoxCounts::site_visits>},
               NamedCount{"sheet and further language", translated_sheets},
               NamedCount{"screen and further language", translated_screens},
               NamedCount{"free-issue piece", field<&BoxCounts::free_issue>}};

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
    if (constexpr std::string_view further = "hours for further boxes: ";
        view.starts_with(further)) {
        DriverLookup found{hours_driver(view.substr(further.size())), false};
        found.driver.further_boxes = true;
        return found;
    }
    for (const NamedCount& row : plain_drivers)
        if (row.name == view) {
            DriverLookup found{{row.count, "", {}, name == "job"}, false};
            found.driver.parts = row.parts;
            return found;
        }
    if (view.starts_with("point "))
        return {{points_of_signal, name.substr(6), {}, false, false, true}, false};
    if (view.starts_with("module "))
        return {{modules_of_signal, name.substr(7), {}, false, false, true}, false};
    if (ends_with(view, " point"))
        return {{points_of_class, name.substr(0, name.size() - 6), {}, false}, false};
    if (view.starts_with("channel ") && ends_with(view, " tested"))
        return {{tested_of_class, name.substr(8, name.size() - 15), {}, false}, false};
    return {{}, true};
}

} // namespace backplate
