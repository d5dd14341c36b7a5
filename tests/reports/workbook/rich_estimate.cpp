#include "tests/reports/workbook/rich_estimate.h"

#include <string>
#include <utility>
#include <vector>

namespace backplate {
namespace {

constexpr int digits = 2;

Money money(const char* text) { return Money::parse(text).value(); }

Rule rule(const char* id, const char* value, const char* unit) {
    Rule result;
    result.id = id;
    result.value = parse_decimal(value).value();
    result.unit = unit;
    result.source = "invented";
    return result;
}

FindingRow finding_row(const char* code, const char* title, Severity severity, const char* text,
                       bool caution = false) {
    FindingRow row;
    row.code = code;
    row.title = title;
    row.severity = severity;
    row.text = text;
    row.caution = caution;
    return row;
}

struct Article {
    const char* part;
    const char* description;
    const char* role;
    int quantity;
    const char* unit;
    const char* list;
    const char* net;
    int lead_days;
    const char* note;
};

// Unit prices whose lines end in half a cent are there on purpose: 1 × 1.005, 3 × 0.335, 7 × 2.675.
const std::vector<Article>& articles() {
    static const std::vector<Article> rows{
        {"ENC-1008", "Wall enclosure 1000 × 800 × 300 mm, painted steel, with plate", "enclosure",
         1, "piece", "436.00", "305.20", 15, ""},
        {"CTRL-S", "Compact controller, 12 places", "controller", 1, "piece", "520.00", "390.00",
         28, ""},
        {"MOD-DI16", "Input module 16 × 24 V DC", "module", 3, "piece", "168.00", "126.00", 21, ""},
        {"MOD-DO16", "Output module 16 × 24 V DC 0.5 A", "module", 1, "piece", "204.00", "153.00",
         21, ""},
        {"MOD-AI8", "Analogue input module 8 × 4-20 mA", "module", 1, "piece", "436.00", "327.00",
         42, "longest lead time of the job"},
        {"MOD-AO4", "Analogue output module 4 × 4-20 mA", "module", 1, "piece", "348.00", "261.00",
         35, ""},
        {"MOD-CNT2", "Counter module 2 × 24 V", "module", 1, "piece", "242.00", "181.50", 35, ""},
        {"CON-16", "Front connector 20 pole", "accessory", 5, "piece", "18.40", "13.80", 21, ""},
        {"CON-8", "Front connector 10 pole", "accessory", 2, "piece", "12.60", "9.45", 21, ""},
        {"REL-6", "Interposing relay 24 V DC, changeover 6 A, with base", "interface", 15, "piece",
         "11.80", "7.4340", 14, ""},
        {"PSU-5", "Supply 230 V AC / 24 V DC 5 A", "supply", 1, "piece", "118.00", "89.68", 14, ""},
        {"BRK-M6", "Breaker 2 pole C 6 A, 6 kA", "incoming", 1, "piece", "22.50", "13.7490", 7, ""},
        {"BRK-D4", "Electronic channel 24 V DC 4 A", "protection", 3, "piece", "31.00", "24.80", 14,
         ""},
        {"TERM-25", "Feed-through terminal 2.5 mm²", "terminal", 187, "piece", "0.92", "0.5980", 7,
         "packs of 50, 13 to stock"},
        {"WIRE-075", "Wire 0.75 mm², black", "wire", 249, "metre", "0.21", "0.1890", 7, ""},
        {"MARK-1", "Marker strip", "equipment", 1, "piece", "1.34", "1.005", 7, "half a cent"},
        {"MARK-3", "End stop, grey", "equipment", 3, "piece", "0.45", "0.335", 7, "half a cent"},
        {"MARK-7", "Label carrier", "equipment", 7, "piece", "3.57", "2.675", 7, "half a cent"},
        {"=1+1", "=HYPERLINK(\"x\")", "equipment", 2, "piece", "10.00", "8.00", 7,
         "@SUM(1), +1, -1 are texts"},
        {"A<B>&\"C\"", "Schütz für Öfen, ß 100 %, <b>fett</b> & mehr", "equipment", 1, "piece",
         "99.99", "80.00", 7, "_x0041_ stays as written"}};
    return rows;
}

BillLine bill_line(const Article& article, const std::string& box, int boxes) {
    BillLine line;
    line.box = box;
    line.part = article.part;
    line.description = article.description;
    line.role = article.role;
    line.quantity = article.quantity;
    line.unit = article.unit;
    line.list = money(article.list);
    line.unit_net = money(article.net);
    line.line_net = line.unit_net->times(article.quantity).rounded(digits);
    line.line_all = line.line_net->times(boxes);
    line.price_date = Date::of(2026, 10, 1);
    line.lead_days = article.lead_days;
    line.note = article.note;
    return line;
}

BillLine free_issue(const std::string& box) {
    BillLine line;
    line.box = box;
    line.description = std::string("Panel by client, bad bytes \xFF\xC3 and \x01 control; ");
    while (line.description.size() < 320) line.description += "long text ";
    line.role = "free_issue";
    line.quantity = 1;
    line.unit_net = line.line_net = line.line_all = Money();
    line.note = "free issue by client\nsecond line";
    return line;
}

void add_sundries(std::vector<BillLine>& bill, const std::string& box, int boxes) {
    Money above;
    for (const BillLine& line : bill)
        if (line.box == box) above += *line.line_net;
    BillLine line;
    line.box = box;
    line.description = "Ferrules, marks, screws, small parts";
    line.role = "sundries";
    line.quantity = 1;
    line.unit = "lump_sum";
    line.unit_net = line.line_net = above.share(Percent::whole(4), digits);
    line.line_all = line.line_net->times(boxes);
    line.note = "4 % of the lines above";
    bill.push_back(line);
}

std::vector<BillLine> make_bill() {
    std::vector<BillLine> bill;
    for (const Article& article : articles()) bill.push_back(bill_line(article, "CP1", 1));
    bill.push_back(free_issue("CP1"));
    add_sundries(bill, "CP1", 1);
    for (std::size_t i = 0; i < 9; ++i) bill.push_back(bill_line(articles()[i], "=RIO", 3));
    add_sundries(bill, "=RIO", 3);
    for (std::size_t i = 0; i < bill.size(); ++i) bill[i].line = static_cast<int>(i) + 1;
    return bill;
}

struct Activity {
    const char *box, *activity, *work_class, *once, *each, *hours, *rate;
};

std::vector<LabourLine> make_labour() {
    const std::vector<Activity> rows{
        {"", "purchasing", "project", "4", "0", "4", "84.00"},
        {"CP1", "engineering", "engineering", "12.55", "0", "12.55", "78.00"},
        {"CP1", "drawings", "engineering", "14", "0", "14", "78.00"},
        {"CP1", "software", "software", "48", "0", "48", "82.00"},
        {"CP1", "screens", "software", "30", "0", "30", "82.00"},
        {"CP1", "enclosure_preparation", "shop", "0", "7", "7", "52.00"},
        {"CP1", "mounting", "shop", "0", "8.583", "8.583", "52.00"},
        {"CP1", "wiring", "shop", "0", "20.7", "20.7", "52.00"},
        {"CP1", "wire_check", "shop", "0", "6.9", "6.9", "52.00"},
        {"=RIO", "wiring", "shop", "0", "9.125", "26.391", "52.00"},
        {"=RIO", "works_test", "test", "0", "16.4", "47.43", "64.00"},
        {"CP1", "documents", "engineering", "12.546", "0", "12.546", "78.00"},
        {"CP1", "packing", "shop", "0", "1", "1", "52.50"},
        {"", "project_lead", "project", "14.534", "0", "14.534", "84.1250"}};
    std::vector<LabourLine> labour;
    for (const Activity& row : rows) {
        LabourLine line;
        line.box = row.box;
        line.activity = row.activity;
        line.work_class = row.work_class;
        line.once = Hours::parse(row.once).value();
        line.each = Hours::parse(row.each).value();
        line.hours = Hours::parse(row.hours).value();
        line.rate = money(row.rate);
        line.cost = line.rate.times(line.hours, digits);
        labour.push_back(line);
    }
    return labour;
}

PriceResult make_price(const Estimate& estimate, const RuleBook& rules) {
    const Commercial& terms = estimate.request.commercial;
    PriceResult price;
    price.currency = estimate.request.currency;
    price.digits = digits;
    for (const BillLine& line : estimate.bill) price.material += *line.line_all;
    for (const LabourLine& line : estimate.labour) price.labour += line.cost;
    price.freight = price.material.share(Percent::of(rules.policy.freight_percent.value), digits);
    price.direct = price.material + price.freight + price.labour;
    price.contingency = price.direct.share(terms.contingency, digits);
    price.overhead =
        (price.direct + price.contingency).share(Percent::of(rules.policy.overhead.value), digits);
    price.cost = price.direct + price.contingency + price.overhead;
    const std::int64_t margin = terms.margin->steps();
    price.margin = price.cost.ratio(margin, Percent::whole(100).steps() - margin).rounded(digits);
    price.concession = (price.cost + price.margin).share(terms.concession, digits);
    const Money raw = price.cost + price.margin - price.concession;
    price.price = raw.rounded_up_to(Money::of_steps(*to_steps(rules.policy.round_up_to.value, 4)));
    price.rounding = price.price - raw;
    price.tax = price.price.share(*terms.tax, digits);
    price.p50 = money("36120.50");
    price.p80 = money("40411.00");
    price.base = money("33002.10");
    return price;
}

BidRequest make_request() {
    BidRequest request;
    request.title = "Fish pass, three gates & a screen";
    request.client = "Invented river trust <north>";
    request.enquiry = "=E-0056";
    request.prepared_by = "Estimating, Jürgen Müßig";
    request.date = Date::of(2026, 11, 24);
    request.deliver_weeks = 10;
    request.commercial.margin = Percent::parse("17.5").value();
    request.commercial.contingency = Percent::whole(5);
    request.commercial.concession = Percent::parse("2.25").value();
    request.commercial.tax = Percent::whole(19);
    request.commercial.delivery_term = "EXW";
    request.assumptions = {
        {"/scope/languages", "1", "languages", "defaults/scope.languages",
         "Included: drawings, software, works test, packing; documents basic, in 1 language(s)."},
        {"/boxes/0/site/fault_current_ka", "null", "kA", "defaults/boxes[].site.fault_current_ka",
         "Available fault current at the incoming terminals not stated; the offer holds up to "
         "6.0 kA."},
        {"/commercial/tax_percent", "19", "%", "defaults/commercial.tax_percent",
         "Offer valid 30 days, delivery term EXW."}};
    return request;
}

BoxResult make_box(const std::string& name, int quantity) {
    BoxResult box;
    box.name = name;
    box.quantity = quantity;
    box.modules = {{"CTRL-S", "controller", 1}, {"MOD-DI16", "module", 3},
                   {"MOD-DO16", "module", 1},   {"MOD-AI8", "module", 1},
                   {"MOD-AO4", "module", 1},    {"MOD-CNT2", "module", 1}};
    SupplyResult supply;
    supply.load = {3.27};
    supply.load_all_on = {3.32};
    supply.required = Amperes{4.23};
    supply.rated = {5};
    supply.part = "PSU-5";
    supply.air = Celsius{51.3};
    supply.derating.temperature = 0.967;
    supply.derating.utilisation = 0.8;
    box.supplies = {supply};
    box.heat.inside = {61.4};
    box.heat.mid = Celsius{49.1};
    box.heat.top = Celsius{51.3};
    box.heat.second_method_top = Celsius{49.6};
    box.heat.limit = {53};
    box.heat.stage = "sealed";
    box.enclosures = {{"ENC-1008", 1, 800, 1000, 300, "IP54", "painted_steel", 50.9, 749, 939}};
    box.incoming = IncomingResult{{0.61}, {6}, "1.5 mm²", "BRK-M6", {13.5}, {}, {}};
    box.short_circuit = ShortCircuitResult{6, "BRK-M6", "weakest_part"};
    box.terminals = 187;
    box.wires = 207;
    return box;
}

std::vector<PointResult> make_points() {
    return {{"CP1", "DI", 34, 41, 48, 6},   {"CP1", "DO", 12, 15, 16, 1},
            {"CP1", "AI_MA", 6, 8, 8, 0},   {"CP1", "AO_MA", 3, 4, 4, 0},
            {"CP1", "CNT", 1, 2, 2, 0},     {"=RIO", "DI", 37, 45, 48, 3},
            {"=RIO", "DI_SAFE", 0, 1, 4, 3}};
}

std::vector<Finding> make_findings() {
    return {
        {"FIELD_POWER", Severity::warning, "/boxes/0/points", {{"box", "CP1"}, {"amps", "0.33"}}},
        {"NORMS_UNCONFIRMED", Severity::warning, "#/labour", {}},
        {"DEMO_DATA", Severity::warning, "#/demo_data", {}},
        {"TERMINALS",
         Severity::note,
         "#/boxes/0/terminals",
         {{"box", "CP1"},
          {"terminals", "187"},
          {"channels", "78"},
          {"reason", "shields and three-wire counters"}}},
        {"QUALIFIED_REVIEW", Severity::note, "#/boxes", {}},
        {"FIELD_EXCLUDED", Severity::note, "/scope", {}}};
}

std::vector<BasisEntry> make_basis() {
    return {{"/points/0/required",
             "40.8",
             "channels",
             "ceil(a × (100 + b) ÷ 100)",
             "spare/of_used",
             {from_request("/boxes/0/points/0/count", "34", "points"),
              from_request("/spare/percent/default", "20", "%")},
             "whole numbers, rounded up per signal"},
            {"/boxes/0/modules/1/quantity",
             "3",
             "pieces",
             "ceil(a ÷ b)",
             "mix/cheapest",
             {from_figure("/points/0/required", "41", "channels"),
              from_part("MOD-DI16/channels", "16", "channels")},
             "only this module of its signal is in the cheapest mix"},
            {"/price/freight",
             "80.123456",
             "EUR",
             "=a × b ÷ 100",
             "price_policy/freight_percent",
             {from_figure("/price/material", "4006.17", "EUR"),
              from_rule("price_policy/freight_percent", "2", "%")},
             "invented"}};
}

} // namespace

RuleBook rich_rules() {
    RuleBook rules;
    rules.policy.freight_percent = rule("price_policy/freight_percent", "2", "% of material");
    rules.policy.overhead = rule("price_policy/overhead", "12.125", "% of direct and contingency");
    rules.policy.round_up_to = rule("price_policy/round_up_to", "0.05", "");
    rules.policy.sundries_percent =
        rule("price_policy/sundries_percent", "4", "% of other material");
    for (const auto& [key, meaning] :
         {std::pair{"DI", "24 V DC sinking input"}, std::pair{"DO", "24 V DC transistor output"}}) {
        Signal signal;
        signal.key = key;
        signal.meaning = meaning;
        rules.signals.push_back(signal);
    }
    rules.findings = {
        finding_row("FIELD_POWER", "Field loads on the supply", Severity::warning,
                    "Loads outside box {box} take {amps} A from its 24 V supply; confirm them.",
                    true),
        finding_row("NORMS_UNCONFIRMED", "Hours not yet your own", Severity::warning,
                    "Hours rest on starting norms that this shop has not confirmed."),
        finding_row("DEMO_DATA", "Demo data", Severity::warning,
                    "Prices come from the demo price book and are invented.", true),
        finding_row("TERMINALS", "Terminals differ from two each", Severity::note,
                    "Box {box} needs {terminals} terminals for {channels} channels because of "
                    "{reason}."),
        finding_row("QUALIFIED_REVIEW", "Estimate, not a design", Severity::note,
                    "This is an estimate; a qualified person must review the design before "
                    "anything is built.",
                    true),
        finding_row("FIELD_EXCLUDED", "Field scope excluded", Severity::note,
                    "Field cable, conduit, field devices, work at the site, earthing grid and "
                    "permits are excluded unless listed.",
                    true),
        finding_row("UNBUILDABLE", "Nothing builds this", Severity::stop,
                    "No choice from the price book builds box {box}: {limits}.")};
    return rules;
}

Estimate rich_estimate() {
    Estimate estimate;
    estimate.demo_data = true;
    estimate.request = make_request();
    estimate.findings = make_findings();
    estimate.points = make_points();
    estimate.boxes = {make_box("CP1", 1), make_box("=RIO", 3)};
    estimate.bill = make_bill();
    estimate.labour = make_labour();
    estimate.delivery_weeks = 9;
    estimate.critical_part = "MOD-AI8";
    estimate.price = make_price(estimate, rich_rules());
    estimate.basis = make_basis();
    return estimate;
}

Estimate unbuildable_estimate() {
    Estimate estimate;
    estimate.buildable = false;
    estimate.request = make_request();
    estimate.findings = {{"UNBUILDABLE",
                          Severity::stop,
                          "/boxes/0",
                          {{"box", "CP1"},
                           {"limits", "no enclosure of IP66 is at most 300 mm wide (narrowest: "
                                      "400 mm)"}}}};
    return estimate;
}

} // namespace backplate
