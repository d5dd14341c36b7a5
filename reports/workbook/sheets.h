#pragma once

#include "pricing/book/rule_book.h"
#include "pricing/job/price_steps.h"
#include "reports/workbook/page.h"

namespace backplate {

/// What every sheet is written from.
struct Source {
    const Estimate& estimate;
    const RuleBook& rules;
    bool client = false; ///< for the client: no cost, norm, margin, rule or internal note
    bool draft = false;  ///< a client's document that must not be sent yet

    int digits() const; ///< decimals of the job's currency
    const std::string& currency() const { return estimate.request.currency; }
    bool inch() const { return estimate.request.inch; }
    /// How often the box is built; 1 for the job itself (no name).
    int boxes_of(const std::string& box) const;
    PrintSetup print(bool landscape) const;
    /// "demo data" where prices are invented, else nothing.
    std::string price_mark() const;
};

/// Price of every kind of box, options and facts of the offer, for the client.
void write_client_summary(const Source& source, Page& page);
/// Channels asked and fitted, for the client.
void write_client_points(const Source& source, Page& page);

// Names of cells that formulas of other sheets use: material, charges, subcontract (where there are
// any), sundries_percent (bill), labour, hours_total (hours); the price chain names its own.

void write_summary(const Source& source, Page& page);
/// "Scope and terms": what the offer holds, what it does not, assumptions, cautions, terms.
void write_offer(const Source& source, Page& page);
/// Points, modules and, where there are steps, further points.
void write_points(const Source& source, const FoundSteps& steps, Page& page);
void write_bill(const Source& source, Page& page);
void write_hours(const Source& source, Page& page);
void write_supply(const Source& source, Page& page);
/// Are there sheets of the drawing: not where nothing builds the job.
bool has_drawing(const Source& source);
/// The sheets of the drawing as pictures below each other.
void write_drawing_pictures(const Source& source, Page& page);
void write_findings(const Source& source, Page& page);
void write_basis(const Source& source, Page& page);

/// "job 3, revision 2" where the request is saved, else nothing.
std::string saved_text(const BidRequest& request);

/// A word of the data inside a sentence: "painted_steel" -> "painted steel".
std::string inside_sentence(std::string word);
/// "24 V supply", "12 V DC supply", "230 V AC transformer".
std::string supply_title(const SupplyResult& supply);

/// Title and one line below it, the same on every sheet but the summary; the table starts in row 3.
void write_heading(const Source& source, Page& page, const char* title, const std::string& below);

/// The price chain of the summary from `row` on: each step a formula over the named cells above.
/// Returns the first free row. Needs estimate.price.
int write_price_chain(const Source& source, Page& page, int row);

} // namespace backplate
