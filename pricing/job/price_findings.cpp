#include <algorithm>
#include <array>
#include <optional>

#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string whole(std::int64_t value) { return steps_text(value, 0); }

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

int boxes_of(const Estimate& estimate, const std::string& name) {
    for (const BoxResult& box : estimate.boxes)
        if (box.name == name) return box.quantity;
    return 1;
}

/// Packs count over the job; their rest stands at the first line of the part.
void pack_finding(const BillLine& line, const std::string& at, const Part& part,
                  const Estimate& estimate, FindingSink& sink) {
    const std::int64_t own = line.quantity * boxes_of(estimate, line.box);
    if (line.to_buy <= own) return;
    std::int64_t need = 0;
    for (const BillLine& other : estimate.bill)
        if (other.part == line.part) need += other.quantity * boxes_of(estimate, other.box);
    const std::int64_t bought = need + line.to_buy - own;
    sink.add("PACK_ROUNDING", at,
             {{"part", part.key},
              {"quantity", whole(need)},
              {"bought", whole(bought)},
              {"pack", whole(std::max(1, part.pack))},
              {"rest", whole(bought - need)},
              {"rest_to", line.rest_charged > 0 ? "the job" : "stock"}},
             part.key + ", " + whole(bought) + " for " + whole(need));
}

/// Kinds that warm the box by current of their own.
constexpr auto powered_kinds =
    std::array<std::string_view, 9>{"controller", "head",       "feed",   "module",   "interface",
                                    "network",    "redundancy", "backup", "equipment"};

bool heat_unknown(const Part& part) {
    const bool powered =
        std::find(powered_kinds.begin(), powered_kinds.end(), part.kind) != powered_kinds.end();
    if (part.kind == "supply") return part.efficiency_row.empty();
    return powered && !part.own_a && !part.own_w;
}

void part_findings(const BillLine& line, const std::string& at, const Part& part,
                   const Estimate& estimate, FindingSink& sink) {
    if (part.state != "current")
        sink.add("OBSOLETE", at,
                 {{"part", part.key},
                  {"state", plain_place(part.state)},
                  {"successor", part.successor.empty() ? "not named" : part.successor}},
                 part.key);
    pack_finding(line, at, part, estimate, sink);
    if (heat_unknown(part))
        sink.add("HEAT_LOSS_UNKNOWN", at, {{"part", part.key}, {"row", "none (0 W)"}}, part.key);
    for (const Accessory& accessory : part.accessories) {
        const bool there =
            std::any_of(estimate.bill.begin(), estimate.bill.end(), [&](const BillLine& other) {
                return other.part == accessory.part && other.box == line.box;
            });
        if (!there)
            sink.add("PART_MISSING_ACCESSORY", at,
                     {{"part", part.key}, {"accessory", accessory.part}},
                     part.key + " without " + accessory.part);
    }
}

void line_finding(const BillLine& line, std::size_t index, const Part* part,
                  const Estimate& estimate, FindingSink& sink) {
    const std::string at = "#/bill/" + whole(static_cast<std::int64_t>(index));
    if (!line.unit_net)
        sink.add("NO_PRICE", at, {{"description", line.description}}, line.description);
    if (line.price_date) {
        const std::int64_t age = estimate.request.date.days - line.price_date->days;
        if (static_cast<double>(age) > sink.limit("PRICE_OLD"))
            sink.add("PRICE_OLD", at + "/price_date", {{"part", line.part}, {"age", whole(age)}},
                     line.part + ", " + whole(age) + " days");
    }
    if (part) part_findings(line, at, *part, estimate, sink);
}

/// Parts that the job was last built from and that are chosen no more, in the order of their keys.
void gone_findings(const Estimate& estimate, const PriceBook& book, FindingSink& sink) {
    const auto& saved = estimate.request.saved;
    if (!saved) return;
    for (const std::string& key : saved->from_parts) {
        const Part* part = book.find(key);
        const bool built =
            std::ranges::find(estimate.bill, key, &BillLine::part) != estimate.bill.end();
        if (built || (part && part->state != "discontinued")) continue;
        const std::string state = part ? "discontinued" : "no part of the price book";
        const std::string successor =
            part && !part->successor.empty() ? part->successor : "not named";
        sink.add("PART_GONE", "/job",
                 {{"part", key},
                  {"job", whole(saved->from_job)},
                  {"revision", whole(saved->from_revision)},
                  {"state", state},
                  {"successor", successor}},
                 key + " (" + state + ", successor " + successor + ")");
    }
}

/// Weeks beyond those asked, or parts of long delivery that the enquiry speaks of.
void delivery_finding(const Estimate& estimate, FindingSink& sink) {
    const auto& asked = estimate.request.deliver_weeks;
    if (!estimate.delivery_weeks) return;
    const bool late = asked && *estimate.delivery_weeks > *asked;
    if (!late && !has_circumstance(estimate.request, "long_lead")) return;
    std::optional<int> days;
    for (const BillLine& line : estimate.bill)
        if (line.part == estimate.critical_part && line.lead_days) days = line.lead_days;
    sink.add("LEADTIME", "#/delivery",
             {{"part", estimate.critical_part.empty() ? "Building" : estimate.critical_part},
              {"lead_days", whole(days.value_or(0))},
              {"weeks", whole(*estimate.delivery_weeks)},
              {"deliver_weeks", asked ? whole(*asked) : "none"}});
}

} // namespace

void bill_findings(const Estimate& estimate, const PriceBook& book, FindingSink& sink) {
    for (std::size_t i = 0; i < estimate.bill.size(); ++i) {
        const BillLine& line = estimate.bill[i];
        line_finding(line, i, line.part.empty() ? nullptr : book.find(line.part), estimate, sink);
    }
    gone_findings(estimate, book, sink);
    validity_finding(estimate, book, sink);
    delivery_finding(estimate, sink);
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
                  {"high", number_text(ratio.high, ratio.digits)}},
                 plain_place(ratio.name) + " at " + number_text(ratio.value, ratio.digits));
    }
    const Percent contingency = estimate.request.commercial.contingency;
    if (contingency.fraction() * 100 < sink.limit("CONTINGENCY_LOW"))
        sink.add("CONTINGENCY_LOW", "/commercial/contingency_percent",
                 {{"percent", contingency.text()},
                  {"limit", number_text(sink.limit("CONTINGENCY_LOW"))}});
    const PriceResult& price = *estimate.price;
    if (price.price.is_zero()) return;
    const double margin = (price.price - price.cost).number() / price.price.number() * 100;
    if (margin < sink.limit("MARGIN_LOW"))
        sink.add(
            "MARGIN_LOW", "#/price/margin",
            {{"margin", number_text(margin, 1)}, {"limit", number_text(sink.limit("MARGIN_LOW"))}});
}

} // namespace backplate
