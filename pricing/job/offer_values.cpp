#include <algorithm>
#include <array>

#include "pricing/job/offer_texts.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

constexpr const char* open = "not stated";

std::string whole(std::int64_t value) { return steps_text(value, 0); }

const BidRequest& job(const OfferView& view) { return view.estimate.request; }

std::string box_count(const OfferView& view) {
    std::int64_t boxes = 0;
    for (const Box& box : job(view).boxes) boxes += box.quantity;
    return whole(boxes);
}

std::string point_count(const OfferView& view) {
    std::int64_t points = 0;
    for (const PointResult& point : view.estimate.points)
        for (const Box& box : job(view).boxes)
            if (box.name == point.box) points += std::int64_t{point.used} * box.quantity;
    return whole(points);
}

void add_once(std::vector<std::string>& names, const std::string& name) {
    if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end())
        names.push_back(name);
}

/// The files that points of the request came from, in the order of the request.
void add_origins(const Node& node, std::vector<std::string>& files) {
    if (const Node* file = at_pointer(node, "/origin/file")) add_once(files, file->text);
    for (const Node& item : node.items) add_origins(item, files);
    for (const Member& member : node.members)
        if (member.key != "origin") add_origins(member.value, files);
}

std::string basis(const OfferView& view) {
    std::vector<std::string> papers;
    if (!job(view).enquiry.empty()) papers.push_back("enquiry " + job(view).enquiry);
    if (const Node* boxes = at_pointer(job(view).sent, "/boxes")) add_origins(*boxes, papers);
    if (papers.empty()) return "the request of " + job(view).date.text();
    std::string text;
    for (const std::string& paper : papers) text += (text.empty() ? "" : ", ") + paper;
    return text;
}

std::string witness_days(const OfferView& view) {
    return number_text(job(view).scope.witness_days);
}

std::string site_days(const OfferView& view) { return number_text(job(view).scope.site_days); }

std::string languages(const OfferView& view) { return whole(job(view).scope.languages); }

std::string delivery_term(const OfferView& view) { return job(view).commercial.delivery_term; }

std::string room_percent(const OfferView& view) { return view.box.choices.room.text(); }

std::string quantity(const OfferView& view) { return whole(view.box.quantity); }

std::string feeds(const OfferView& view) { return whole(view.box.site.feeds); }

std::string rating_ka(const OfferView& view) {
    const auto& rating = view.result.short_circuit;
    return rating && rating->stated_ka ? number_text(*rating->stated_ka, 1) : open;
}

std::string fault_ka(const OfferView& view) {
    const auto& stated = view.box.site.fault_current_ka;
    return stated ? number_text(*stated, 1) : open;
}

std::string ambient(const OfferView& view) {
    return temperature_range_text(view.box.site.ambient_low_c, view.box.site.ambient_high_c,
                                  job(view).inch);
}

std::string altitude(const OfferView& view) {
    return distance_text(view.box.site.altitude_m, job(view).inch);
}

std::string place(const OfferView& view) {
    std::string text = view.box.site.place;
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

std::string backup_minutes(const OfferView& view) {
    return number_text(view.box.choices.backup_minutes);
}

std::string approvals(const OfferView& view) {
    std::string text;
    for (const std::string& word : view.box.site.approvals)
        text += (text.empty() ? "" : ", ") + word;
    return text.empty() ? open : text;
}

std::string mark(const OfferView& view) {
    for (const EnclosureResult& each : view.result.enclosures)
        if (!each.protection.empty()) return each.protection;
    return open;
}

std::string currency(const OfferView& view) { return job(view).currency; }

std::string valid_until(const OfferView& view) {
    return job(view).date.plus_days(job(view).valid_days).text();
}

std::string tax_percent(const OfferView& view) {
    const auto& tax = job(view).commercial.tax;
    return tax ? tax->text() : open;
}

const FindingRow* price_old(const OfferView& view) { return view.rules.find_finding("PRICE_OLD"); }

/// Lines whose price is older on the job's date than the finding PRICE_OLD allows.
std::string old_lines(const OfferView& view) {
    const FindingRow* row = price_old(view);
    if (!row || !row->limit) return "0";
    const auto old = [&](const BillLine& line) {
        return line.price_date && static_cast<double>(job(view).date.days - line.price_date->days) >
                                      row->limit->number();
    };
    return whole(std::count_if(view.estimate.bill.begin(), view.estimate.bill.end(), old));
}

std::string price_age_limit(const OfferView& view) {
    const FindingRow* row = price_old(view);
    return row && row->limit ? row->limit->text() : open;
}

std::string weeks(const OfferView& view) {
    return view.estimate.delivery_weeks ? whole(*view.estimate.delivery_weeks) : open;
}

/// By its description, for an offer names no keys of parts.
std::string critical_part(const OfferView& view) {
    for (const BillLine& line : view.estimate.bill)
        if (!line.part.empty() && line.part == view.estimate.critical_part) return line.description;
    return open;
}

std::string amount(const OfferView& view, Money PriceResult::*of) {
    const auto& price = view.estimate.price;
    return price ? ((*price).*of).text(price->digits) + " " + price->currency : open;
}

std::string p50(const OfferView& view) { return amount(view, &PriceResult::p50); }

std::string p80(const OfferView& view) { return amount(view, &PriceResult::p80); }

struct Value {
    std::string_view name;
    std::string (*of)(const OfferView&);
};
constexpr auto values = std::array{
    Value{"box_count", box_count},
    Value{"point_count", point_count},
    Value{"basis", basis},
    Value{"witness_days", witness_days},
    Value{"site_days", site_days},
    Value{"languages", languages},
    Value{"delivery_term", delivery_term},
    Value{"room_percent", room_percent},
    Value{"quantity", quantity},
    Value{"feeds", feeds},
    Value{"rating_ka", rating_ka},
    Value{"fault_ka", fault_ka},
    Value{"ambient", ambient},
    Value{"altitude", altitude},
    Value{"place", place},
    Value{"backup_minutes", backup_minutes},
    Value{"approvals", approvals},
    Value{"mark", mark},
    Value{"currency", currency},
    Value{"valid_until", valid_until},
    Value{"tax_percent", tax_percent},
    Value{"old_lines", old_lines},
    Value{"price_age_limit", price_age_limit},
    Value{"weeks", weeks},
    Value{"critical_part", critical_part},
    Value{"p50", p50},
    Value{"p80", p80},
};

/// A row's figure; a temperature with its unit, as the documents of the job print it.
std::string figure(const Rule& rule, bool inch) {
    if (rule.unit == "°C") return stated_temperature_text(rule.number(), inch);
    return rule.text();
}

} // namespace

std::string offer_value(const OfferView& view, const std::string& name) {
    for (const Value& value : values)
        if (value.name == name) return value.of(view);
    const auto row = view.rules.offer_figures.find(name);
    return row == view.rules.offer_figures.end() ? open : figure(row->second, job(view).inch);
}

} // namespace backplate
