#include "app/command_line/summary.h"
#include "app/command_line/counted.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "pricing/values/document_units.h"
#include "reports/number_format.h"
#include "reports/wording.h"

namespace backplate {
namespace {

constexpr std::size_t most_findings = 8;

/// Counts characters, not bytes, so that columns stand with degree signs and umlauts.
std::string padded(const std::string& text, std::size_t width) {
    const auto length =
        static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
            return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
        }));
    return length >= width ? text : text + std::string(width - length, ' ');
}

std::string grouped(const std::string& amount) {
    std::string out = amount;
    const auto point = std::min(out.find('.'), out.size());
    for (std::size_t at = point; at > 3 && out[at - 4] != '-';) {
        at -= 3;
        out.insert(at, ",");
    }
    return out;
}

class Summary {
public:
    Summary(const Estimate& estimate, const RuleBook& rules) : estimate_(estimate), rules_(rules) {}

    std::string write() {
        const BidRequest& request = estimate_.request;
        add("{}{}\n", request.title.empty() ? "(no title)" : request.title,
            request.client.empty() ? "" : ", for " + request.client);
        add("{}, prices issue {}, rules issue {}{}\n\n", request.date.text(),
            estimate_.prices_issue, estimate_.rules_issue,
            estimate_.demo_data ? "; demo data: parts and prices are invented" : "");
        points();
        if (estimate_.buildable) {
            boxes();
            hours();
            price();
        }
        unit_prices();
        findings();
        assumptions();
        offer();
        return std::move(out_);
    }

private:
    template <class... Values> void add(fmt::format_string<Values...> text, Values&&... values) {
        out_ += fmt::format(text, std::forward<Values>(values)...);
    }

    void points() {
        for (const BoxResult& box : estimate_.boxes) {
            const auto own = [&](const PointResult& point) { return point.box == box.name; };
            if (std::none_of(estimate_.points.begin(), estimate_.points.end(), own)) continue;
            const std::string head = several() ? "Points of " + box.name : "Points";
            add("{}used  required  fitted  spare achieved\n", padded(head + "  ", 12));
            for (const PointResult& point : estimate_.points)
                if (point.box == box.name) point_line(point, head.size() + 2);
        }
    }

    void point_line(const PointResult& point, std::size_t width) {
        const std::string spare =
            point.used > 0 && estimate_.buildable
                ? number_text((point.fitted - point.used) * 100.0 / point.used, 1) + " %"
                : "-";
        add("  {}{:>4}  {:>8}  {:>6}  {:>14}\n",
            padded(point.signal, std::max<std::size_t>(width, 12) - 2), point.used, point.required,
            point.fitted, spare);
    }

    bool several() const { return estimate_.boxes.size() > 1; }

    void boxes() {
        for (const BoxResult& box : estimate_.boxes) {
            if (several()) box_head(box);
            built(box);
        }
        if (several()) add("\n");
    }

    void box_head(const BoxResult& box) {
        const Box& asked =
            estimate_.request.boxes[static_cast<std::size_t>(&box - estimate_.boxes.data())];
        std::string led;
        if (asked.controlled_by == ControlledBy::none) led = ", equipment only";
        if (asked.controlled_by == ControlledBy::other_box)
            led = ", controlled by " + estimate_.request.boxes[asked.controller_box].name +
                  " over " + distance_text(asked.link.length_m, inch()) + " of " +
                  asked.link.medium;
        add("\nBox {}{}, {} {}", box.name, led, grouped(box.price.text(estimate_.price->digits)),
            estimate_.price->currency);
    }

    void built(const BoxResult& box) {
        if (box.quantity > 1)
            add("\n{}{} × {} alike: modules to incoming of one, hours and price of all",
                padded("Boxes", 12), box.quantity, box.name);
        std::string modules;
        for (const ModuleResult& module : box.modules)
            modules +=
                fmt::format("{}{} × {}", modules.empty() ? "" : ", ", module.quantity, module.part);
        add("\n{}{}\n", padded("Modules", 12), modules.empty() ? "none" : modules);
        for (const SupplyResult& supply : box.supplies)
            add("{}{} × {}, {} A of load{}{}{}\n", padded("Supply", 12), supply.quantity,
                supply.part, number_text(supply.load.value, 2), group_of(supply),
                supply.load.value < supply.load_all_on.value
                    ? " (" + number_text(supply.load_all_on.value, 2) + " A all on)"
                    : "",
                asked_of(supply));
        heat(box.heat);
        enclosure(box.enclosures.front());
        add("{}{} A at the terminals, {} A {}, {}; {} terminals, {} wires\n",
            padded("Incoming", 12), number_text(box.incoming->load.value, 2),
            number_text(box.incoming->device.value, 0), box.incoming->part,
            conductor_text(box.incoming->conductor, inch()), *box.terminals, *box.wires);
    }

    /// " at 230 V AC"; " at 24 V DC for outputs"; nothing where one supply feeds everything.
    static std::string group_of(const SupplyResult& supply) {
        if (supply.group == "all") return {};
        const std::string at =
            " at " + number_text(supply.volts) + (supply.alternating ? " V AC" : " V DC");
        return supply.group == "other_voltage" ? at : at + " for " + supply.group;
    }

    std::string asked_of(const SupplyResult& supply) const {
        std::string text = fmt::format(" of {} A", number_text(supply.rated.value, 2));
        if (supply.required && supply.air)
            text = fmt::format(", {} A asked{} at {}", number_text(supply.required->value, 2), text,
                               degrees(*supply.air));
        if (supply.arrangement == "one_plus_one") text += ", each carries all";
        if (supply.arrangement == "n_plus_one")
            text += fmt::format(", any {} carry all", supply.quantity - 1);
        for (const PartCount& part : supply.parts)
            text += fmt::format(", {} × {}", part.quantity, part.part);
        return text;
    }

    void heat(const HeatResult& heat) {
        add("{}{} W inside, ", padded("Heat", 12), number_text(heat.inside.value, 1));
        if (heat.mid && heat.top && heat.second_method_top)
            add("{} mid-height, {} at the top ({} by the surface rule), {}\n", degrees(*heat.mid),
                degrees(*heat.top), degrees(*heat.second_method_top), plain_stage(heat));
        else
            add("no verdict without the box\n");
    }

    void enclosure(const EnclosureResult& enclosure) {
        add("{}{}{}, ", padded("Enclosure", 12),
            enclosure.quantity > 1 ? fmt::format("{} × ", enclosure.quantity) : "",
            enclosure.part.empty() ? "by the client" : enclosure.part);
        if (enclosure.width_mm && enclosure.height_mm && enclosure.depth_mm)
            add("{} (W × H × D), {}, ",
                size_text(*enclosure.width_mm, *enclosure.height_mm, *enclosure.depth_mm, inch()),
                enclosure.protection);
        else
            add("plate {} (W × H), ",
                plate_text(enclosure.plate_width_mm, enclosure.plate_height_mm, inch()));
        add("{} % of the occupied rail free\n", number_text(enclosure.room_left_percent, 1));
    }

    static std::string plain_stage(const HeatResult& heat) {
        std::string text = heat.stage;
        std::replace(text.begin(), text.end(), '_', ' ');
        for (const PartCount& part : heat.parts)
            text += fmt::format(", {} × {}", part.quantity, part.part);
        return text;
    }

    void hours() {
        std::map<std::string, Hours> by_class;
        Hours all;
        for (const LabourLine& line : estimate_.labour) {
            by_class[line.work_class] += line.hours;
            all += line.hours;
        }
        std::string text;
        for (const auto& [work_class, hours] : by_class)
            text += fmt::format("{}{} {}", text.empty() ? "" : ", ", work_class,
                                number_text(hours.number(), 1));
        add("{}{} h: {}\n", padded("Hours", 12), number_text(all.number(), 1), text);
        add("{}{}, {} decides\n", padded("Delivery", 12),
            counted(estimate_.delivery_weeks.value_or(0), "week"), estimate_.critical_part);
    }

    void price_line(const std::string& name, Money amount, const std::string& note = {}) {
        add("  {}{:>14} {}{}\n", padded(name, 14), grouped(amount.text(estimate_.price->digits)),
            estimate_.price->currency, note.empty() ? "" : "  " + note);
    }

    void price() {
        const PriceResult& price = *estimate_.price;
        add("\nPrice{}\n", estimate_.demo_data ? " (demo data)" : "");
        price_line("material", price.material);
        price_line("freight", price.freight);
        price_line("labour", price.labour);
        price_line("contingency", price.contingency);
        price_line("overhead", price.overhead);
        price_line("margin", price.margin);
        if (!price.concession.is_zero()) price_line("concession", -price.concession);
        price_line("rounding", price.rounding);
        price_line("PRICE", price.price);
        add("  The same margin is kept with even odds at {}, four times in five at {} {}.\n",
            grouped(price.p50.text(price.digits)), grouped(price.p80.text(price.digits)),
            price.currency);
    }

    void unit_prices() {
        if (estimate_.unit_prices.empty()) return;
        const PriceResult& price = *estimate_.price;
        add("\nOne more point, in a free channel and with a further module\n");
        for (const UnitPrice& unit : estimate_.unit_prices)
            add("  {}{:>14} {:>14} {}\n", padded(unit.signal, 14),
                grouped(unit.price.text(price.digits)),
                unit.with_module ? grouped(unit.with_module->text(price.digits)) : "-",
                price.currency);
    }

    void findings() {
        std::size_t grave = 0;
        for (const Finding& finding : estimate_.findings)
            if (finding.severity != Severity::note) ++grave;
        add("\nFindings: {} to look at, {}\n", grave,
            counted(estimate_.findings.size() - grave, "note"));
        std::size_t shown = 0;
        for (const Finding& finding : estimate_.findings) {
            if (finding.severity == Severity::note || shown == most_findings) break;
            add("  {}: {}\n", severity_word(finding.severity), finding_text(finding, rules_));
            ++shown;
        }
        if (grave > shown) add("  and {} more (--json shows all)\n", grave - shown);
    }

    void assumptions() {
        if (estimate_.request.assumptions.empty()) return;
        add("\nAssumptions\n");
        for (const Assumption& assumption : estimate_.request.assumptions)
            add("  {}\n", assumption.text);
    }

    /// "included: drawings, software …", the terms in full; everything stands in the workbook.
    void offer() {
        if (estimate_.offer_texts.empty()) return;
        add("\nOffer (in full on the workbook's sheet \"Scope and terms\")\n");
        for (const char* section : {"scope", "option", "exclusion", "assumption", "caution"}) {
            std::string subjects;
            for (const OfferText& text : estimate_.offer_texts)
                if (text.section == section)
                    subjects += (subjects.empty() ? "" : ", ") + text.subject +
                                (text.box.empty() ? "" : " of " + text.box);
            if (!subjects.empty()) add("  {}: {}\n", section_title(section), subjects);
        }
        for (const OfferText& text : estimate_.offer_texts)
            if (text.section == "terms") add("  {}\n", text.text);
    }

    bool inch() const { return estimate_.request.inch; }
    std::string degrees(Celsius value) const { return temperature_text(value.value, inch()); }

    const Estimate& estimate_;
    const RuleBook& rules_;
    std::string out_;
};

} // namespace

std::string estimate_summary(const Estimate& estimate, const RuleBook& rules) {
    return Summary(estimate, rules).write();
}

} // namespace backplate
