#include <algorithm>

#include "pricing/job/findings.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

std::string plain_place(std::string place) {
    std::replace(place.begin(), place.end(), '_', ' ');
    return place;
}

void site_taken(const BidRequest& request, FindingSink& sink) {
    for (const Box& box : request.boxes) {
        const std::string ambient =
            temperature_range_text(box.site.ambient_low_c, box.site.ambient_high_c, sink.inch());
        const std::string altitude = distance_text(box.site.altitude_m, sink.inch());
        const std::string place = plain_place(box.site.place);
        sink.add("SITE_AS_TAKEN", box_path(box.index) + "/site",
                 {{"ambient", ambient}, {"altitude", altitude}, {"place", place}},
                 box.name + ": " + ambient + ", " + altitude + ", " + place);
    }
}

/// A type and an IP code in one job: asked, or marked on an enclosure offered.
void marks_finding(const Estimate& estimate, const PriceBook& book, FindingSink& sink) {
    bool type = false, ip = false;
    const auto look = [&](const std::string& mark) {
        type = type || mark.find("Type") != std::string::npos;
        ip = ip || mark.find("IP") != std::string::npos;
    };
    for (const Box& box : estimate.request.boxes) look(box.site.protection);
    for (const BoxResult& box : estimate.boxes)
        for (const EnclosureResult& enclosure : box.enclosures)
            if (const Part* part = book.find(enclosure.part)) {
                look(part->type_mark);
                look(part->ip_mark);
            }
    if (type && ip) sink.add("TYPE_AND_IP", "#/boxes/0/enclosures");
}

void network_finding(const Estimate& estimate, FindingSink& sink) {
    for (const Box& box : estimate.request.boxes)
        if (box.work.network_devices > 0) sink.add("CYBER_EXCLUDED", box_path(box.index) + "/work");
    for (const BillLine& line : estimate.bill)
        if (line.role == "network") sink.add("CYBER_EXCLUDED", "#/bill");
}

void built_cautions(const Estimate& estimate, FindingSink& sink) {
    const BidRequest& request = estimate.request;
    for (std::size_t i = 0; i < estimate.boxes.size(); ++i) {
        const BoxResult& box = estimate.boxes[i];
        if (box.incoming && box.incoming->device.value > 0) sink.add("STUDIES_EXCLUDED", "/scope");
        const bool ours = std::any_of(
            box.enclosures.begin(), box.enclosures.end(),
            [](const EnclosureResult& enclosure) { return !enclosure.protection.empty(); });
        if (ours) sink.add("OPENINGS_ON_SITE", "#" + box_path(i) + "/enclosures");
    }
    const bool spare =
        std::any_of(estimate.points.begin(), estimate.points.end(),
                    [](const PointResult& point) { return point.fitted > point.used; });
    if (spare)
        sink.add("SPARE_INCLUDED", "#/points",
                 {{"kind", request.spare.wired() ? "wired to terminals" : "not wired"}});
    sink.add("PRICE_BASIS", "#/price",
             {{"currency", request.currency},
              {"until", request.date.plus_days(request.valid_days).text()},
              {"term", request.commercial.delivery_term}});
}

} // namespace

void caution_findings(const Estimate& estimate, const PriceBook& book, FindingSink& sink) {
    const BidRequest& request = estimate.request;
    sink.add("QUANTITIES_AS_STATED", "/boxes");
    sink.add("QUALIFIED_REVIEW", "#/boxes");
    sink.add("LOCAL_CODE", "/job/practice");
    if (!has_circumstance(request, "hazardous_area"))
        sink.add("AREA_UNCLASSIFIED", "/circumstances");
    sink.add("SAFETY_NOT_CLAIMED", "/scope");
    sink.add("LOCKOUT", "#/boxes");
    site_taken(request, sink);
    sink.add("FIELD_EXCLUDED", "/scope");
    sink.add("LISTING_NOT_CLAIMED", box_path(request.boxes.front().index) + "/site/approvals");
    marks_finding(estimate, book, sink);
    network_finding(estimate, sink);
    if (estimate.buildable) built_cautions(estimate, sink);
}

} // namespace backplate
