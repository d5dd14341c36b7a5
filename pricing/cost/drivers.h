#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// Everything about one box that hours are counted by. Pieces; own_hours in thousandths of an hour.
struct BoxCounts {
    int jobs = 0;                                     ///< 1 at the first box of the job
    int bill_lines = 0, controllers = 0, modules = 0; ///< modules: heads and feeds too
    int enclosures_wall = 0, enclosures_floor = 0;
    int enclosure_joints = 0;     ///< between enclosures side by side
    bool own_preparation = false; ///< the enclosure states its minutes: preparation_minutes
    int preparation_minutes = 0;
    int cut_round = 0, cut_rectangular = 0, cut_gland = 0;
    int cutout_hundredths = 100; ///< factor of the enclosure on every opening
    int rail_rows = 0, devices_small = 0, devices_large = 0, devices_on_plate = 0;
    int devices = 0; ///< on the rail, neither module nor controller
    int door_devices = 0, operator_panels = 0;
    int terminals = 0, wires = 0, shields = 0, network_leads = 0;
    int points = 0, loops = 0, screens = 0, networks = 0, network_devices = 0, soft_points = 0;
    int sheets_new = 0, sheets_typical = 0, sheets_generated = 0;
    int further_boxes = 0;      ///< equal to this one, beyond the first; the rest is of one box
    int power_wires_large = 0;  ///< above the section of the row wires/large section
    int safety_controllers = 0; ///< programs with safety points
    int witness_hundredths = 0, site_hundredths = 0; ///< hundredths of a day
    int site_visits = 0;
    int further_languages = 0;
    int free_issue = 0; ///< pieces that the client supplies
    std::map<std::string, int> points_by_class, points_by_signal; ///< used
    std::map<std::string, int> tested_by_class;                   ///< channels in the works test
    std::map<std::string, int> modules_by_signal;
    int assembly_minutes = 0;   ///< software of ready assemblies, whole minutes
    std::int64_t own_hours = 0; ///< of equipment that brings its hours along
    int channels_tested() const;
};

/// A driver of the hours table, found once per run: a count of the box, or hours of activities.
struct Driver {
    int (*count)(const BoxCounts&, const std::string& of) = nullptr; ///< null: hours of activities
    std::string of;                                                  ///< classes or a signal
    std::vector<std::string> activities; ///< hours of these; empty: of all other activities
    bool per_job = false;                ///< stands at the job, not at the box
    bool other_classes = false;          ///< of all others: not of the norm's own class
    bool of_signal = false;              ///< `of` is a signal
    bool further_boxes = false;          ///< hours of activities, for every further equal box
    int parts = 1;                       ///< the count is in so many parts of a whole
};

/// Nothing the engine counts bears the name: count stays null and `activities` empty with
/// `unknown` true.
struct DriverLookup {
    Driver driver;
    bool unknown = false;
};
DriverLookup find_driver(const std::string& name);

} // namespace backplate
