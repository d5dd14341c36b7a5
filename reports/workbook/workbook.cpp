#include "reports/workbook/workbook.h"

#include <algorithm>

#include "reports/workbook/sheets.h"
#include "reports/workbook/workbook_file.h"

namespace backplate {

int Source::digits() const {
    return estimate.price ? estimate.price->digits : rules.digits_of(currency());
}

int Source::boxes_of(const std::string& box) const {
    for (const BoxResult& result : estimate.boxes)
        if (result.name == box) return result.quantity;
    return 1;
}

PrintSetup Source::print(bool landscape) const {
    const BidRequest& request = estimate.request;
    PrintSetup setup;
    setup.letter = request.north_america;
    setup.landscape = landscape;
    setup.left = request.title;
    const char* edition = !client ? "internal, " : draft ? "DRAFT, " : "";
    setup.right = (estimate.demo_data ? "demo data, " : "") + (edition + request.date.text());
    return setup;
}

std::string Source::price_mark() const {
    const std::string data = estimate.demo_data ? "demo data" : "";
    if (!draft) return data;
    return data.empty() ? "DRAFT" : "DRAFT, " + data;
}

std::string saved_text(const BidRequest& request) {
    if (!request.saved || request.saved->job == 0) return {};
    return "job " + steps_text(request.saved->job, 0) + ", revision " +
           steps_text(request.saved->revision, 0);
}

std::string inside_sentence(std::string word) {
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

std::string supply_title(const SupplyResult& supply) {
    if (supply.group != "other_voltage") return number_text(supply.volts) + " V supply";
    return number_text(supply.volts) + (supply.alternating ? " V AC transformer" : " V DC supply");
}

void write_heading(const Source& source, Page& page, const char* title, const std::string& below) {
    page.text({0, 0}, title, look::title());
    page.row_height(0, 24);
    page.text({1, 0}, source.estimate.request.title + (below.empty() ? "" : " – " + below),
              look::subtitle());
}

void write_workbook(const Estimate& estimate, const RuleBook& rules, const std::string& path,
                    const FoundSteps& steps) {
    WorkbookFile file(path);
    const BidRequest& request = estimate.request;
    file.describe(request.title, request.prepared_by, request.date);
    Page summary(file, "Summary");
    Page offer(file, "Scope and terms");
    Page points(file, "Points");
    Page bill(file, "Bill of material");
    Page hours(file, "Hours");
    Page supply(file, "Supply and heat");
    Page findings(file, "Findings and assumptions");
    Page basis(file, "Basis");
    const Source source{estimate, rules};
    if (has_drawing(source)) {
        Page drawing(file, "Drawing");
        write_drawing_pictures(source, drawing);
    }
    write_summary(source, summary);
    write_offer(source, offer);
    write_points(source, steps, points);
    write_bill(source, bill);
    write_hours(source, hours);
    write_supply(source, supply);
    write_findings(source, findings);
    write_basis(source, basis);
    file.save();
}

void write_client_workbook(const Estimate& estimate, const RuleBook& rules, const std::string& path,
                           bool draft) {
    WorkbookFile file(path);
    const BidRequest& request = estimate.request;
    file.describe(request.title, request.prepared_by, request.date);
    Page summary(file, "Offer");
    Page offer(file, "Scope and terms");
    Page points(file, "Channels");
    const Source source{estimate, rules, true, draft};
    write_client_summary(source, summary);
    write_offer(source, offer);
    write_client_points(source, points);
    file.save();
}

} // namespace backplate
