#include <algorithm>

#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string degrees(double celsius) { return number_text(celsius, 1) + " °C"; }

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

bool high_protection(const std::string& mark, double limit) {
    if (mark.starts_with("Type ")) {
        for (const char* type : {"3", "3X", "3S", "3SX", "4", "4X", "6", "6P", "13"})
            if (mark.substr(5) == type) return true;
        return false;
    }
    const int highest = static_cast<int>(limit); // 54: solids 5, water 4
    return mark.size() >= 4 && (mark[2] - '0' > highest / 10 || mark[3] - '0' > highest % 10);
}

std::string material_word(const PanelChoice& choice) {
    if (!choice.design || choice.design->enclosure->material.empty()) return "open";
    return choice.design->enclosure->material;
}

void climate_findings(const Box& box, const PanelChoice& choice, FindingSink& sink) {
    const Site& site = box.site;
    const std::string at = box_path(box.index) + "/site";
    if (site.ambient_high_c > sink.limit("AMBIENT"))
        sink.add("AMBIENT", at + "/ambient_c",
                 {{"ambient", degrees(site.ambient_high_c)}, {"box", box.name}});
    if (site.ambient_low_c < sink.limit("AMBIENT_LOW")) {
        double coldest = -1000;
        if (choice.design)
            for (const BillItem& item : choice.design->bill)
                if (item.part && item.part->min_c) coldest = std::max(coldest, *item.part->min_c);
        sink.add("AMBIENT_LOW", at + "/ambient_c",
                 {{"ambient", degrees(site.ambient_low_c)},
                  {"box", box.name},
                  {"part_min", coldest > -1000 ? degrees(coldest) : "not stated"},
                  {"decision", "not included"}});
    }
    const bool outdoor = site.place.starts_with("outdoor");
    if (site.humidity_percent > sink.limit("CONDENSATION") || (outdoor && site.ambient_low_c < 5))
        sink.add("CONDENSATION", at + "/humidity_percent",
                 {{"humidity", number_text(site.humidity_percent)},
                  {"place", site.place},
                  {"ambient_low", degrees(site.ambient_low_c)},
                  {"box", box.name},
                  {"decision", "not included"}});
    if (site.altitude_m > sink.limit("ALTITUDE"))
        sink.add(
            "ALTITUDE", at + "/altitude_m",
            {{"altitude", number_text(site.altitude_m) + " m"},
             {"box", box.name},
             {"factor", number_text(altitude_factor(site.altitude_m, sink.rules().supply), 3)}});
}

void line_findings(const Box& box, const Demand& demand, FindingSink& sink) {
    const std::string at = box_path(box.index) + "/points/";
    bool low = false;
    for (const PointLine& points : box.points) low = low || points.volts.value_or(24) < 50;
    for (const DemandLine& line : demand.lines) {
        const PointLine& points = *line.points;
        const std::string place = at + steps_text(static_cast<std::int64_t>(points.index), 0);
        const std::string count = steps_text(points.count, 0);
        if (line.signal->special_module || points.hart)
            sink.add("SIGNAL_SUBTYPE", place,
                     {{"signal", points.signal}, {"count", count}, {"box", box.name}});
        if (points.signal.ends_with("_SAFE"))
            sink.add("SAFETY_DUAL", place,
                     {{"count", count},
                      {"box", box.name},
                      {"devices", steps_text((points.count + 1) / 2, 0)}});
        const double volts = points.volts.value_or(24);
        if (volts != 24 && points.signal.starts_with("D"))
            sink.add("SECOND_SUPPLY", place + "/volts",
                     {{"volts", number_text(volts)}, {"signal", points.signal}, {"box", box.name}});
        if (volts >= sink.limit("AC_SEGREGATION") && low && volts > 24)
            sink.add("AC_SEGREGATION", place,
                     {{"box", box.name}, {"signal", points.signal}, {"volts", number_text(volts)}});
    }
}

} // namespace

void site_findings(const Box& box, const PanelChoice& choice, FindingSink& sink) {
    const Site& site = box.site;
    const std::string at = box_path(box.index);
    asked_findings(box, sink);
    climate_findings(box, choice, sink);
    if (choice.search) line_findings(box, choice.search->facts.demand, sink);
    if (high_protection(site.protection, sink.limit("INGRESS")))
        sink.add("INGRESS", at + "/site/protection",
                 {{"protection", site.protection},
                  {"box", box.name},
                  {"ruled_out", "openings with outside air unless marked for it"}});
    if (!site.corrosion.empty())
        sink.add("CORROSION", at + "/site/corrosion",
                 {{"corrosion", site.corrosion},
                  {"box", box.name},
                  {"material", material_word(choice)}});
    if (!site.approvals.empty())
        sink.add("APPROVAL", at + "/site/approvals",
                 {{"approvals", joined(site.approvals)},
                  {"box", box.name},
                  {"decision", "not in the price"}});
    if (box.work.soft_points > sink.limit("SOFTPOINTS") ||
        box.work.network_devices > sink.limit("SOFTPOINTS"))
        sink.add("SOFTPOINTS", at + "/work",
                 {{"soft_points", steps_text(box.work.soft_points, 0)},
                  {"devices", steps_text(box.work.network_devices, 0)},
                  {"hours", "their norms'"}});
}

} // namespace backplate
