#include <string>
#include <vector>

#include "pricing/values/document_units.h"
#include "reports/wording.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr int last_column = 3;

/// The page that the client reads first.
class Offer {
public:
    Offer(const Source& source, Page& page) : source_(source), page_(page) {}

    void write() {
        page_.widths({30, 12, 20, 46});
        write_job();
        write_boxes();
        write_options();
        page_.print(source_.print(false));
    }

private:
    void fact(const char* name, const std::string& value) {
        if (value.empty()) return;
        page_.text({row_, 0}, name, look::label());
        page_.paragraph(row_++, 1, last_column, value, look::text());
    }

    void write_job() {
        const BidRequest& job = source_.estimate.request;
        page_.paragraph(row_++, 0, last_column, job.title.empty() ? "Offer" : job.title,
                        look::title());
        if (source_.draft)
            page_.paragraph(row_++, 0, last_column, "DRAFT: not an offer, not to be sent",
                            look::text().sized(14).bolded().coloured(look::alarm));
        ++row_;
        fact("Client", job.client);
        fact("Your enquiry", job.enquiry);
        fact("Offer", saved_text(job));
        fact("Prepared by", job.prepared_by);
        fact("Date", job.date.text());
        fact("Valid until", job.date.plus_days(job.valid_days).text());
        if (source_.estimate.delivery_weeks)
            fact("Delivery", steps_text(*source_.estimate.delivery_weeks, 0) + " weeks");
        fact("Delivery term", job.commercial.delivery_term);
        ++row_;
    }

    /// "800 × 1000 × 300 mm, IP54, painted steel".
    std::string enclosure_of(const BoxResult& box) const {
        std::string text;
        for (const EnclosureResult& enclosure : box.enclosures) {
            if (!enclosure.width_mm || !enclosure.height_mm || !enclosure.depth_mm) continue;
            text += text.empty() ? "" : "; ";
            if (enclosure.quantity > 1)
                text += steps_text(enclosure.quantity, 0) + " side by side, each ";
            text += size_text(*enclosure.width_mm, *enclosure.height_mm, *enclosure.depth_mm,
                              source_.inch());
            if (!enclosure.protection.empty()) text += ", " + enclosure.protection;
            if (!enclosure.material.empty()) text += ", " + inside_sentence(enclosure.material);
        }
        return text;
    }

    void amount(const char* title, Money sum, const Style& style) {
        page_.text({row_, 0}, title, style);
        page_.blank({row_, 1}, style);
        page_.number({row_, 2}, sum.number(), style.numbered(look::money(source_.digits()).number));
        page_.text({row_++, 3}, source_.price_mark(), style.coloured(look::caution));
    }

    void write_boxes() {
        const PriceResult& price = *source_.estimate.price;
        page_.section(row_++, last_column, "Price");
        page_.header(row_++, {{"Panel"},
                              {"Pieces", 0, true},
                              {"All, " + source_.currency(), 0, true},
                              {"Enclosure"}});
        for (const BoxResult& box : source_.estimate.boxes) {
            page_.text({row_, 0}, box.name, look::wrapped());
            page_.number({row_, 1}, box.quantity, look::count());
            page_.number({row_, 2}, box.price.number(), look::money(source_.digits()));
            page_.text({row_++, 3}, enclosure_of(box), look::wrapped());
        }
        amount("Price", price.price, look::total(look::text().bolded()));
        if (price.tax) {
            amount("Tax", *price.tax, look::text());
            amount("Price with tax", price.price + *price.tax, look::text().bolded());
        }
        ++row_;
    }

    void write_options() {
        if (source_.estimate.options.empty()) return;
        page_.section(row_++, last_column, "Options, not inside the price");
        for (const OptionResult& option : source_.estimate.options) {
            page_.text({row_, 0}, option.offered, look::wrapped());
            page_.text({row_, 1}, plain_words(option.kind), look::text());
            if (option.difference)
                page_.number({row_, 2}, option.difference->price.number(),
                             look::money(source_.digits()));
            page_.text({row_++, 3},
                       option.difference ? "difference to the price above" : "no price yet",
                       look::label());
        }
    }

    const Source& source_;
    Page& page_;
    int row_ = 0;
};

} // namespace

void write_client_summary(const Source& source, Page& page) { Offer(source, page).write(); }

void write_client_points(const Source& source, Page& page) {
    constexpr int head_row = 3;
    const std::vector<ColumnHead> columns{
        {"Panel", 16},       {"Pieces", 8, true},    {"Signal", 18},        {"Meaning", 44},
        {"Points", 9, true}, {"Channels", 10, true}, {"Spare, %", 10, true}};
    page.widths(columns);
    write_heading(source, page, "Channels", source.price_mark());
    page.header(head_row, columns);
    page.freeze_above(head_row + 1);
    page.repeat_row(head_row);
    int row = head_row + 1;
    for (const PointResult& point : source.estimate.points) {
        const Signal* known = source.rules.find_signal(point.signal);
        page.text({row, 0}, point.box, look::wrapped());
        page.number({row, 1}, source.boxes_of(point.box), look::count());
        page.text({row, 2}, point.signal, look::text());
        page.text({row, 3}, known ? known->meaning : "", look::wrapped());
        page.number({row, 4}, point.used, look::count());
        page.number({row, 5}, point.fitted, look::count());
        if (point.used > 0)
            page.number({row, 6},
                        static_cast<double>(multiply_divide(point.fitted - point.used, 1000,
                                                            point.used, Rounding::half_away)) /
                            10,
                        look::one_decimal());
        ++row;
    }
    page.print(source.print(true));
}

} // namespace backplate
