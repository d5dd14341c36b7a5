#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "pricing/values/decimal.h"
#include "reports/number_format.h"
#include "reports/wording.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr int last_column = 4;

class Summary {
public:
    Summary(const Source& source, Page& page) : source_(source), page_(page) {}

    void write();

private:
    void fact(const char* name, const std::string& value);
    void row_of(const char* title, const std::string& text);
    void write_job();
    void write_not_buildable();
    void write_price();
    void write_price_line(const char* title, Money amount, const std::string& remark);
    void write_points();
    void write_box(const BoxResult& box);
    void write_boxes();
    void write_findings();
    std::string delivery() const;

    const Source& source_;
    Page& page_;
    int row_ = 0;
};

void Summary::fact(const char* name, const std::string& value) {
    row_of(name, value.empty() ? "not stated" : value);
}

void Summary::row_of(const char* title, const std::string& text) {
    page_.text({row_, 0}, title, look::label());
    page_.paragraph(row_, 1, last_column, text, look::text());
    ++row_;
}

std::string Summary::delivery() const {
    if (!source_.estimate.delivery_weeks) return "not known";
    std::string text = steps_text(*source_.estimate.delivery_weeks, 0) + " weeks";
    if (!source_.estimate.critical_part.empty())
        text += ", decided by " + source_.estimate.critical_part;
    if (source_.estimate.request.deliver_weeks)
        text += " (asked: " + steps_text(*source_.estimate.request.deliver_weeks, 0) + ")";
    return text;
}

void Summary::write_job() {
    const BidRequest& job = source_.estimate.request;
    page_.paragraph(row_++, 0, last_column, job.title, look::title());
    page_.text({row_++, 0}, "Internal estimate with cost and margin; not for the client",
               look::subtitle());
    ++row_;
    fact("Client", job.client);
    fact("Enquiry", job.enquiry);
    fact("Prepared by", job.prepared_by);
    fact("Date", job.date.text() + ", valid until " + job.date.plus_days(job.valid_days).text());
    fact("Delivery", delivery());
    fact("Delivery term", job.commercial.delivery_term);
    fact("Estimate class", steps_text(job.estimate_class, 0));
    if (const auto saved = saved_text(job); !saved.empty()) fact("Saved as", saved);
    fact("Based on", "price book issue " + steps_text(source_.estimate.prices_issue, 0) +
                         ", rules issue " + steps_text(source_.estimate.rules_issue, 0));
    ++row_;
}

void Summary::write_not_buildable() {
    const Style alarm = look::text().sized(18).bolded().coloured(look::alarm);
    page_.text({row_, 0}, "CANNOT BE BUILT AS ASKED", alarm);
    page_.row_height(row_++, 26);
    page_.paragraph(row_++, 0, last_column,
                    "Nothing in the price book builds this request. The limits that bind:",
                    look::text().bolded());
    for (const Finding& finding : source_.estimate.findings)
        if (finding.severity == Severity::stop)
            page_.paragraph(row_++, 0, last_column, finding_text(finding, source_.rules),
                            look::text().sized(12).coloured(look::alarm));
    ++row_;
}

void Summary::write_price_line(const char* title, Money amount, const std::string& remark) {
    page_.text({row_, 0}, title, look::text());
    page_.number({row_, 2}, amount.number(), look::money(source_.digits()));
    page_.text({row_, 3}, remark, look::label());
    ++row_;
}

void Summary::write_price() {
    const PriceResult& price = *source_.estimate.price;
    const Style large = look::text().sized(14).bolded().coloured(look::accent);
    page_.section(row_++, last_column, "Price");
    page_.text({row_, 0}, "Price, " + source_.currency(), large);
    page_.formula({row_, 2}, "price_total", price.price.number(),
                  look::money(source_.digits()).sized(14).bolded().coloured(look::accent));
    page_.text({row_, 3}, source_.price_mark(), large.coloured(look::caution));
    page_.row_height(row_++, 24);
    write_price_line("P50", price.p50, "covers the cost with a chance of 50 %, same margin");
    write_price_line("P80", price.p80, "covers the cost with a chance of 80 %, same margin");
    write_price_line("Likely values", price.base, "no contingency, same margin");
    ++row_;
    page_.section(row_++, last_column, "How the price is built");
    page_.header(row_++, {{"Step"},
                          {"Rate", 0, true},
                          {"Amount, " + source_.currency(), 0, true},
                          {"Of what"},
                          {""}});
    row_ = write_price_chain(source_, page_, row_) + 1;
}

struct SignalSum {
    std::int64_t used = 0, required = 0, fitted = 0;
    const PointResult* least = nullptr; ///< the box with the least spare
};

/// Less spare in proportion to the points used.
bool less_spare(const PointResult& a, const PointResult& b) {
    return std::int64_t{a.fitted} * b.used < std::int64_t{b.fitted} * a.used;
}

std::string least_text(const SignalSum& sum) {
    if (sum.least == nullptr) return "none used";
    const auto tenths = multiply_divide(sum.least->fitted - sum.least->used, 1000, sum.least->used,
                                        Rounding::half_away);
    return steps_text(tenths, 1) + " % in box " + sum.least->box;
}

void Summary::write_points() {
    std::vector<std::string> order;
    std::map<std::string, SignalSum> sums;
    for (const PointResult& point : source_.estimate.points) {
        const auto [place, added] = sums.try_emplace(point.signal);
        if (added) order.push_back(point.signal);
        SignalSum& sum = place->second;
        const int boxes = source_.boxes_of(point.box);
        sum.used += std::int64_t{point.used} * boxes;
        sum.required += std::int64_t{point.required} * boxes;
        sum.fitted += std::int64_t{point.fitted} * boxes;
        if (point.used > 0 && (sum.least == nullptr || less_spare(point, *sum.least)))
            sum.least = &point;
    }
    page_.section(row_++, last_column, "Points, all boxes");
    page_.header(row_++, {{"Signal"},
                          {"Used", 0, true},
                          {"Required", 0, true},
                          {"Fitted", 0, true},
                          {"Least spare, of used"}});
    for (const std::string& signal : order) {
        const SignalSum& sum = sums.at(signal);
        page_.text({row_, 0}, signal, look::text());
        page_.number({row_, 1}, static_cast<double>(sum.used), look::count());
        page_.number({row_, 2}, static_cast<double>(sum.required), look::count());
        page_.number({row_, 3}, static_cast<double>(sum.fitted), look::count());
        page_.text({row_++, 4}, least_text(sum), look::wrapped());
    }
    ++row_;
}

std::string supply_text(const SupplyResult& supply) {
    return (supply.quantity == 1 ? "" : steps_text(supply.quantity, 0) + " × ") + supply.part +
           ", " + number_text(supply.rated.value, 1) + " A rated, " +
           (supply.required ? number_text(supply.required->value, 2) + " A required" : "taken") +
           " for a load of " + number_text(supply.load.value, 2) + " A";
}

std::string heat_text(const HeatResult& heat, bool inch) {
    std::string text = number_text(heat.inside.value, 1) + " W inside, ";
    if (heat.top) text += temperature_text(heat.top->value, inch) + " at the top, ";
    text += "limit " + temperature_text(heat.limit.value, inch) + "; " +
            (heat.stage.empty() ? "no verdict without the box" : inside_sentence(heat.stage));
    for (const PartCount& part : heat.parts)
        text += ", " + steps_text(part.quantity, 0) + " × " + part.part;
    return text;
}

std::string enclosure_text(const EnclosureResult& enclosure, bool inch) {
    std::string text = enclosure.quantity == 1 ? "" : steps_text(enclosure.quantity, 0) + " × ";
    text += enclosure.part.empty() ? "by the client" : enclosure.part;
    if (enclosure.width_mm && enclosure.height_mm && enclosure.depth_mm)
        text +=
            ", " + size_text(*enclosure.width_mm, *enclosure.height_mm, *enclosure.depth_mm, inch);
    else
        text += ", plate " + length_text(enclosure.plate_width_mm, inch) + " × " +
                length_text(enclosure.plate_height_mm, inch);
    if (!enclosure.protection.empty()) text += ", " + enclosure.protection;
    if (!enclosure.material.empty()) text += ", " + inside_sentence(enclosure.material);
    return text + ", " + number_text(enclosure.room_left_percent, 1) +
           " % of the occupied rail free";
}

/// "FAR (2 boxes), controlled by MAIN over 250 m of fibre".
std::string box_title(const BoxResult& box, const BidRequest& request, bool inch) {
    std::string title = box.name;
    if (box.quantity > 1) title += " (" + steps_text(box.quantity, 0) + " boxes)";
    for (const Box& asked : request.boxes) {
        if (asked.name != box.name) continue;
        if (asked.controlled_by == ControlledBy::none) title += ", equipment only";
        if (asked.controlled_by == ControlledBy::other_box)
            title += ", controlled by " + request.boxes[asked.controller_box].name + " over " +
                     distance_text(asked.link.length_m, inch) + " of " + asked.link.medium;
    }
    return title;
}

void Summary::write_box(const BoxResult& box) {
    const Estimate& estimate = source_.estimate;
    page_.text({row_++, 0}, box_title(box, estimate.request, source_.inch()),
               look::text().bolded());
    if (estimate.price && estimate.boxes.size() > 1) {
        const int digits = estimate.price->digits;
        row_of("Share of the price", box.price.text(digits) + " " + estimate.price->currency +
                                         " as estimated; material " + box.material.text(digits) +
                                         ", own hours " + box.labour.text(digits));
    }
    for (const EnclosureResult& enclosure : box.enclosures)
        row_of("Enclosure", enclosure_text(enclosure, source_.inch()));
    row_of("Heat", heat_text(box.heat, source_.inch()));
    for (const SupplyResult& supply : box.supplies)
        row_of(supply_title(supply).c_str(), supply_text(supply));
    if (box.incoming)
        row_of("Incoming", box.incoming->part + ", " + number_text(box.incoming->device.value, 1) +
                               " A, conductor " +
                               conductor_text(box.incoming->conductor, source_.inch()));
}

void Summary::write_boxes() {
    if (source_.estimate.boxes.empty()) return;
    page_.section(row_++, last_column, "Boxes");
    for (const BoxResult& box : source_.estimate.boxes) write_box(box);
    ++row_;
}

void Summary::write_findings() {
    page_.section(row_++, last_column, "Stops and warnings");
    const int first = row_;
    for (const Finding& finding : source_.estimate.findings) {
        if (finding.severity == Severity::note) continue;
        const bool stop = finding.severity == Severity::stop;
        page_.text({row_, 0}, plain_words(severity_word(finding.severity)),
                   look::text().bolded().coloured(stop ? look::alarm : look::caution));
        page_.paragraph(row_++, 1, last_column, finding_text(finding, source_.rules), look::text());
    }
    if (row_ == first) page_.text({row_++, 0}, "none", look::label());
    ++row_;
}

void Summary::write() {
    page_.widths({21, 13, 19, 15, 36});
    write_job();
    if (!source_.estimate.buildable) write_not_buildable();
    if (source_.estimate.price) write_price();
    write_points();
    write_boxes();
    write_findings();
    page_.print(source_.print(false));
}

} // namespace

void write_summary(const Source& source, Page& page) { Summary(source, page).write(); }

} // namespace backplate
