#include <algorithm>

#include "pricing/job/findings.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

constexpr double supply_volts = 24; ///< the voltage that a signal's row need not name

std::string whole(std::int64_t value) { return steps_text(value, 0); }

std::string point_path(const Box& box, const PointLine& points) {
    return box_path(box.index) + "/points/" + whole(static_cast<std::int64_t>(points.index));
}

/// "CNT (2)"
std::string counted(const PointLine& points) {
    return points.signal + " (" + whole(points.count) + ")";
}

double volts_of(const PointLine& points) { return points.volts.value_or(supply_volts); }

void signal_findings(const Box& box, const DemandLine& line, FindingSink& sink) {
    const PointLine& points = *line.points;
    const std::string place = point_path(box, points);
    if (points.count > 0 && (line.signal->special_module || points.hart))
        sink.add("SIGNAL_SUBTYPE", place,
                 {{"signal", points.signal + (points.hart ? " with HART" : "")},
                  {"count", whole(points.count)},
                  {"box", box.name}},
                 counted(points));
    if (volts_of(points) != supply_volts && points.signal.starts_with("D"))
        sink.add("SECOND_SUPPLY", place + "/volts",
                 {{"volts", number_text(volts_of(points))},
                  {"signal", points.signal},
                  {"box", box.name}},
                 number_text(volts_of(points)) + " V for " + points.signal);
    if (line.signal->power == "switched" && points.fed_from_box && points.count > 0 &&
        points.amps == 0)
        sink.add("OUTPUT_WITHOUT_LOAD", place + "/amps",
                 {{"count", whole(points.count)}, {"signal", points.signal}, {"box", box.name}},
                 counted(points));
}

/// Safety channels of the box in one finding; two channels serve a device.
void safety_finding(const Box& box, const Demand& demand, FindingSink& sink) {
    std::int64_t channels = 0, devices = 0;
    const PointLine* first = nullptr;
    for (const DemandLine& line : demand.lines) {
        if (line.signal->work_class != "safety" || line.points->count == 0) continue;
        if (!first) first = line.points;
        channels += line.points->count;
        devices += (line.points->count + 1) / 2;
    }
    if (first)
        sink.add("SAFETY_DUAL", point_path(box, *first),
                 {{"count", whole(channels)}, {"box", box.name}, {"devices", whole(devices)}});
}

void segregation_finding(const Box& box, FindingSink& sink) {
    const double limit = sink.limit("AC_SEGREGATION");
    const auto low = [&](const PointLine& points) {
        return points.count > 0 && volts_of(points) < limit;
    };
    if (std::none_of(box.points.begin(), box.points.end(), low)) return;
    for (const PointLine& points : box.points)
        if (points.count > 0 && volts_of(points) >= limit)
            sink.add("AC_SEGREGATION", point_path(box, points),
                     {{"box", box.name},
                      {"signal", points.signal},
                      {"volts", number_text(volts_of(points))}},
                     points.signal + " at " + number_text(volts_of(points)) + " V");
}

/// Rail and heat of isolators and barriers; heat of one piece as the load counts it.
void isolator_finding(const SearchFacts& search, FindingSink& sink) {
    const Box& box = *search.facts.box;
    const PointLine* first = nullptr;
    std::int64_t pieces = 0;
    double width = 0, watts = 0;
    for (const InterfaceFact& fact : search.facts.interfaces) {
        const PointLine& points = *search.facts.demand.lines[fact.line].points;
        if (points.via != "isolator" && points.via != "barrier") continue;
        if (!first) first = &points;
        pieces += fact.count;
        width += fact.count * fact.part->width_mm.value_or(0);
        const double own = fact.part->own_a.value_or(0) * search.rules->supply.volts.number();
        watts += fact.count * fact.part->own_w.value_or(own);
    }
    if (first)
        sink.add("BARRIER_WIDTH", point_path(box, *first) + "/via",
                 {{"box", box.name},
                  {"count", whole(pieces)},
                  {"width", length_text(width, sink.inch())},
                  {"watts", number_text(watts, 1)}});
}

} // namespace

void point_findings(const PanelChoice& choice, FindingSink& sink) {
    const SearchFacts& search = *choice.search;
    const Box& box = *search.facts.box;
    for (const DemandLine& line : search.facts.demand.lines) signal_findings(box, line, sink);
    safety_finding(box, search.facts.demand, sink);
    segregation_finding(box, sink);
    isolator_finding(search, sink);
}

} // namespace backplate
