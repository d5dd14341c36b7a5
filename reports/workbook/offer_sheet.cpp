#include <array>
#include <string>

#include "reports/wording.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr int head_row = 3, first_row = 4;
constexpr std::array sections{"scope", "option", "exclusion", "assumption", "caution", "terms"};

/// The sections one below the other, each sentence numbered within its section.
class Offer {
public:
    Offer(const Source& source, Page& page, int row, int last_column)
        : source_(source), page_(page), row_(row), last_column_(last_column) {}

    void write_section(const std::string& section) {
        const int heading = row_++;
        number_ = 0;
        for (const OfferText& text : source_.estimate.offer_texts)
            if (text.section == section)
                line(plain_words(text.subject) + (text.box.empty() ? "" : ", box " + text.box),
                     text.text, text.rule);
        if (section == "assumption") write_assumptions();
        if (section == "caution") write_cautions();
        if (number_ == 0) {
            --row_; // no such sentence: the section is left out
            return;
        }
        page_.section(heading, last_column_, section_title(section));
        ++row_;
    }

private:
    void write_assumptions() {
        for (const Assumption& assumption : source_.estimate.request.assumptions)
            line("Left open in the enquiry", assumption.text, assumption.rule);
    }
    void write_cautions() {
        for (const Finding* finding : further_cautions(source_.estimate, source_.rules))
            line(finding_title(*finding, source_.rules), finding_text(*finding, source_.rules),
                 "findings/" + finding->code);
    }
    void line(const std::string& subject, const std::string& text, const std::string& rule) {
        page_.number({row_, 0}, ++number_, look::count());
        page_.text({row_, 1}, subject, look::wrapped());
        page_.text({row_, 2}, text, look::wrapped());
        if (!source_.client) page_.text({row_, 3}, rule, look::wrapped().coloured(look::quiet));
        ++row_;
    }

    const Source& source_;
    Page& page_;
    int row_, last_column_, number_ = 0;
};

} // namespace

void write_offer(const Source& source, Page& page) {
    std::vector<ColumnHead> columns{{"No.", 6, true}, {"Subject", 26}, {"What the offer says", 88}};
    if (!source.client) columns.push_back({"Rule", 32});
    const int last_column = static_cast<int>(columns.size()) - 1;
    page.widths(columns);
    write_heading(source, page, "Scope and terms", source.price_mark());
    page.header(head_row, columns);
    page.freeze_above(first_row);
    page.repeat_row(head_row);
    if (!source.estimate.buildable) {
        page.paragraph(first_row, 0, last_column,
                       "Nothing is offered: the request cannot be built as asked.",
                       look::text().bolded());
    } else {
        Offer offer(source, page, first_row, last_column);
        for (const char* section : sections) offer.write_section(section);
    }
    page.print(source.print(true));
}

} // namespace backplate
