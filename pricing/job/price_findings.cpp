#include <algorithm>

#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string whole(std::int64_t value) { return steps_text(value, 0); }

std::string degrees_range(const Site& site) {
    return number_text(site.ambient_low_c) + " to " + number_text(site.ambient_high_c) + " °C";
}

std::string plain_place(std::string place) {
    std::replace(place.begin(), place.end(), '_', ' ');
    return place;
}

void validity_finding(const Estimate& estimate, const PriceBook& book, FindingSink& sink) {
    const Part* shortest = nullptr;
    for (const BillLine& line : estimate.bill) {
        const Part* part = line.part.empty() ? nullptr : book.find(line.part);
        if (part && part->valid_until && (!shortest || *part->valid_until < *shortest->valid_until))
            shortest = part;
    }
    const Date until = estimate.request.date.plus_days(estimate.request.valid_days);
    if (shortest && until > *shortest->valid_until)
        sink.add("VALIDITY", "/job/valid_days",
                 {{"offer_until", until.text()},
                  {"part", shortest->key},
                  {"price_until", shortest->valid_until->text()}});
}

void line_finding(const BillLine& line, std::size_t index, const Part* part, Date today,
                  FindingSink& sink) {
    const std::string at = "#/bill/" + whole(static_cast<std::int64_t>(index));
    if (!line.unit_net) sink.add("NO_PRICE", at, {{"description", line.description}});
    if (line.price_date && today.days - line.price_date->days > sink.limit("PRICE_OLD"))
        sink.add("PRICE_OLD", at + "/price_date",
                 {{"part", line.part}, {"age", whole(today.days - line.price_date->days)}});
    if (!part) return;
    if (part->state != "current")
        sink.add("OBSOLETE", at,
                 {{"part", part->key},
                  {"state", plain_place(part->state)},
                  {"successor", part->successor.empty() ? "not named" : part->successor}});
    if (part->pack > 1 && line.quantity % part->pack != 0) {
        const std::int64_t bought = (line.quantity + part->pack - 1) / part->pack * part->pack;
        sink.add("PACK_ROUNDING", at,
                 {{"part", part->key},
                  {"quantity", whole(line.quantity)},
                  {"bought", whole(bought)},
                  {"pack", whole(part->pack)},
                  {"rest", whole(bought - line.quantity)},
                  {"rest_to", part->rest_to.empty() ? "stock" : part->rest_to}});
    }
}

} // namespace

void bill_findings(const Estimate& estimate, const PriceBook& book, FindingSink& sink) {
    for (std::size_t i = 0; i < estimate.bill.size(); ++i) {
        const BillLine& line = estimate.bill[i];
        line_finding(line, i, line.part.empty() ? nullptr : book.find(line.part),
                     estimate.request.date, sink);
    }
    validity_finding(estimate, book, sink);
    const auto& asked = estimate.request.deliver_weeks;
    if (asked && estimate.delivery_weeks && *estimate.delivery_weeks > *asked)
        for (const BillLine& line : estimate.bill)
            if (line.part == estimate.critical_part)
                sink.add("LEADTIME", "#/delivery",
                         {{"part", line.part},
                          {"lead_days", whole(line.lead_days.value_or(0))},
                          {"weeks", whole(*estimate.delivery_weeks)},
                          {"deliver_weeks", whole(*asked)}});
    if (estimate.demo_data) sink.add("DEMO_DATA", "#/demo_data");
}

void price_findings(const Estimate& estimate, FindingSink& sink) {
    if (!sink.rules().norms_confirmed) sink.add("NORMS_UNCONFIRMED", "#/labour");
    for (std::size_t i = 0; i < estimate.ratios.size(); ++i) {
        const RatioResult& ratio = estimate.ratios[i];
        if (ratio.value >= ratio.low && ratio.value <= ratio.high) continue;
        sink.add("RATIO_OUTSIDE", "#/ratios/" + whole(static_cast<std::int64_t>(i)),
                 {{"name", plain_place(ratio.name)},
                  {"value", number_text(ratio.value, ratio.digits)},
                  {"low", number_text(ratio.low, ratio.digits)},
                  {"high", number_text(ratio.high, ratio.digits)}});
    }
    const PriceResult& price = *estimate.price;
    if (price.price.is_zero()) return;
    const double margin = (price.price - price.cost).number() / price.price.number() * 100;
    if (margin < sink.limit("MARGIN_LOW"))
        sink.add(
            "MARGIN_LOW", "#/price/margin",
            {{"margin", number_text(margin, 1)}, {"limit", number_text(sink.limit("MARGIN_LOW"))}});
}

void caution_findings(const Estimate& estimate, FindingSink& sink) {
    const BidRequest& request = estimate.request;
    const Box& box = request.boxes.front();
    sink.add("QUANTITIES_AS_STATED", "/boxes");
    sink.add("QUALIFIED_REVIEW", "#/boxes");
    sink.add("LOCAL_CODE", "/job/practice");
    const auto& words = request.circumstances;
    if (std::find(words.begin(), words.end(), "hazardous_area") == words.end())
        sink.add("AREA_UNCLASSIFIED", "/circumstances");
    sink.add("SAFETY_NOT_CLAIMED", "/scope");
    sink.add("LOCKOUT", "#/boxes");
    sink.add("SITE_AS_TAKEN", box_path(box.index) + "/site",
             {{"ambient", degrees_range(box.site)},
              {"altitude", number_text(box.site.altitude_m) + " m"},
              {"place", plain_place(box.site.place)}});
    sink.add("FIELD_EXCLUDED", "/scope");
    sink.add("LISTING_NOT_CLAIMED", box_path(box.index) + "/site/approvals");
    if (!estimate.buildable) return;
    sink.add("STUDIES_EXCLUDED", "/scope");
    sink.add("OPENINGS_ON_SITE", "#/boxes/0/enclosures");
    bool network = box.work.network_devices > 0, spare = false;
    for (const BillLine& line : estimate.bill) network = network || line.role == "network";
    for (const PointResult& point : estimate.points) spare = spare || point.fitted > point.used;
    if (network) sink.add("CYBER_EXCLUDED", box_path(box.index) + "/work");
    if (spare)
        sink.add("SPARE_INCLUDED", "#/points",
                 {{"kind", request.spare.wired() ? "wired to terminals" : "not wired"}});
    sink.add("PRICE_BASIS", "#/price",
             {{"currency", request.currency},
              {"until", request.date.plus_days(request.valid_days).text()},
              {"term", request.commercial.delivery_term}});
}

} // namespace backplate
