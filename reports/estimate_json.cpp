#include "reports/estimate_json.h"

#include "reports/box_writer.h"
#include "reports/wording.h"

namespace backplate {
namespace {

class EstimateWriter : BoxWriter {
public:
    EstimateWriter(const Estimate& estimate, const RuleBook& rules)
        : BoxWriter(rules.digits_of(estimate.request.currency), estimate.buildable),
          estimate_(estimate), rules_(rules) {}

    std::string write(const char* version) {
        json_.begin_object();
        json_.text("format", "backplate-estimate/1");
        head(version);
        json_.node("request", estimate_.request.filled);
        findings();
        assumptions();
        points();
        systems();
        list("boxes", estimate_.boxes, [this](const BoxResult& box) { box_members(box); });
        list("bill", estimate_.bill, [this](const BillLine& line) { bill_line(line); });
        list("labour", estimate_.labour, [this](const LabourLine& line) { labour_line(line); });
        delivery();
        price();
        list("ratios", estimate_.ratios, [this](const auto& ratio) { ratio_members(ratio); });
        list("offer_texts", estimate_.offer_texts,
             [this](const OfferText& text) { offer_text_members(text); });
        list("unit_prices", estimate_.unit_prices, [this](const auto& unit) { unit_price(unit); });
        list("options", estimate_.options, [this](const auto& option) { option_members(option); });
        list("basis", estimate_.basis, [this](const BasisEntry& entry) { basis_entry(entry); });
        json_.end_object();
        return json_.take();
    }

private:
    void head(const char* version) {
        json_.begin_object("program");
        json_.text("name", "backplate");
        json_.text("version", version);
        json_.end_object();
        json_.begin_object("issue");
        integer("prices", estimate_.prices_issue);
        integer("rules", estimate_.rules_issue);
        json_.end_object();
        json_.flag("demo_data", estimate_.demo_data);
        json_.flag("buildable", estimate_.buildable);
    }

    void findings() {
        list("findings", estimate_.findings, [this](const Finding& finding) {
            json_.text("code", finding.code);
            json_.text("severity", severity_word(finding.severity));
            json_.text("text", finding_text(finding, rules_));
            json_.text("where", finding.where);
            json_.begin_object("params");
            for (const auto& [name, value] : finding.params) json_.text(name, value);
            json_.end_object();
        });
    }

    void assumptions() {
        list("assumptions", estimate_.request.assumptions, [this](const Assumption& assumption) {
            json_.text("field", assumption.field);
            json_.number("value", assumption.value);
            json_.text_or_null("unit", assumption.unit);
            json_.text("rule", assumption.rule);
            json_.text("text", assumption.text);
        });
    }

    void offer_text_members(const OfferText& text) {
        json_.text("section", text.section);
        json_.text("subject", text.subject);
        json_.text_or_null("box", text.box);
        json_.text("text", text.text);
        json_.text("rule", text.rule);
    }

    void points() {
        list("points", estimate_.points, [this](const PointResult& point) {
            json_.text("box", point.box);
            json_.text("signal", point.signal);
            integer("used", point.used);
            integer("required", point.required);
            if (estimate_.buildable)
                integer("fitted", point.fitted);
            else
                json_.null("fitted");
            if (point.used == 0 || !estimate_.buildable)
                json_.null("spare_achieved_percent");
            else
                physics("spare_achieved_percent", (point.fitted - point.used) * 100.0 / point.used);
            if (estimate_.buildable)
                integer("headroom", point.headroom);
            else
                json_.null("headroom");
        });
    }

    void systems() {
        list("systems", estimate_.systems, [this](const SystemResult& system) {
            json_.text("name", system.name);
            json_.text_or_null("platform", system.platform);
            json_.begin_list("boxes");
            for (const std::string& box : system.boxes) json_.text({}, box);
            json_.end_list();
            json_.flag("proven_cheapest", system.proven_cheapest);
            if (system.proven_cheapest)
                money("bound_gap", system.bound_gap);
            else
                json_.null("bound_gap");
        });
    }

    void bill_line(const BillLine& line) {
        integer("line", line.line);
        json_.text("box", line.box);
        json_.text_or_null("part", line.part);
        json_.text("description", line.description);
        json_.text("role", line.role);
        integer("quantity", line.quantity);
        json_.text("unit", line.unit);
        unit_money("list", line.list);
        unit_money("unit_net", line.unit_net);
        money("line_net", line.line_net);
        money("line_all", line.line_all);
        json_.text_or_null("price_date", line.price_date ? line.price_date->text() : "");
        if (line.lead_days)
            integer("lead_days", *line.lead_days);
        else
            json_.null("lead_days");
        json_.text_or_null("note", line.note);
    }

    void labour_line(const LabourLine& line) {
        json_.text_or_null("box", line.box);
        json_.text("activity", line.activity);
        json_.text("class", line.work_class);
        json_.number("once_hours", line.once.text());
        json_.number("each_hours", line.each.text());
        json_.number("hours", line.hours.text());
        unit_money("rate", line.rate);
        money("cost", line.cost);
    }

    void delivery() {
        json_.begin_object("delivery");
        if (estimate_.delivery_weeks)
            integer("weeks", *estimate_.delivery_weeks);
        else
            json_.null("weeks");
        json_.text_or_null("critical_part", estimate_.critical_part);
        json_.end_object();
    }

    void price() {
        if (!estimate_.price) {
            unknown("price", {"currency", "material", "freight", "labour", "direct", "contingency",
                              "overhead", "cost", "margin", "concession", "rounding", "price",
                              "tax", "p50", "p80", "base"});
            return;
        }
        const PriceResult& price = *estimate_.price;
        json_.begin_object("price");
        json_.text("currency", price.currency);
        money("material", price.material);
        money("freight", price.freight);
        money("labour", price.labour);
        money("direct", price.direct);
        money("contingency", price.contingency);
        money("overhead", price.overhead);
        money("cost", price.cost);
        money("margin", price.margin);
        money("concession", price.concession);
        money("rounding", price.rounding);
        money("price", price.price);
        money("tax", price.tax);
        money("p50", price.p50);
        money("p80", price.p80);
        money("base", price.base);
        json_.end_object();
    }

    void unit_price(const UnitPrice& unit) {
        json_.text("box", unit.box);
        json_.text("signal", unit.signal);
        money("price", unit.price);
        money("with_module", unit.with_module);
        json_.text_or_null("module", unit.module);
    }

    void option_members(const OptionResult& option) {
        json_.text("title", option.title);
        json_.text("kind", option.kind);
        json_.flag("buildable", option.buildable);
        money("price", option.price);
        difference("difference", option.difference);
        json_.text_or_null("limits", option.limits);
    }

    void ratio_members(const RatioResult& ratio) {
        json_.text("name", ratio.name);
        physics("value", ratio.value, ratio.digits);
        json_.text("unit", ratio.unit);
        physics("low", ratio.low, ratio.digits);
        physics("high", ratio.high, ratio.digits);
    }

    void basis_entry(const BasisEntry& entry) {
        json_.text("figure", entry.figure);
        json_.number("value", entry.value);
        json_.text("unit", entry.unit);
        json_.text("formula", entry.formula);
        json_.text("rule", entry.rule);
        list("inputs", entry.inputs, [this](const BasisInput& input) {
            static constexpr const char* names[] = {"figure", "request", "rule", "part"};
            json_.text(names[static_cast<int>(input.from)], input.path);
            json_.number("value", input.value);
            json_.text("unit", input.unit);
        });
        json_.text("source", entry.source);
    }

    const Estimate& estimate_;
    const RuleBook& rules_;
};

} // namespace

std::string estimate_json(const Estimate& estimate, const RuleBook& rules, const char* version) {
    return EstimateWriter(estimate, rules).write(version);
}

} // namespace backplate
