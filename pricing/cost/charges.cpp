#include "pricing/cost/charges.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "pricing/cost/conditions.h"

namespace backplate {
namespace {

constexpr const char* rests = "price_policy/pack_charge";
constexpr const char* small_orders = "price_policy/small_order_surcharge";
constexpr const char* rise = "price_policy/escalation_percent_per_month";

const std::int64_t hundred = Percent::whole(100).steps();

std::int64_t raised(std::int64_t amount, std::int64_t percent_steps) {
    return multiply_divide(amount, hundred + percent_steps, hundred, Rounding::half_away);
}

bool in_percent(const Charge& charge) {
    return charge.of == "material" || charge.of == "labour" || charge.of == "direct";
}

Money amount_of(const Rule& rule) {
    return Money::of_steps(round_to_steps(rule.value, Money::places, Rounding::half_away));
}

/// base × share ÷ boxes, rounded once.
Money share_per_box(Money base, Percent share, int boxes, int digits) {
    const std::int64_t step = power_of_ten(Money::places - digits);
    return Money::of_steps(multiply_divide(base.steps(), share.steps(), hundred * boxes * step,
                                           Rounding::half_away))
        .times(step);
}

Money per_box(Money total, int boxes, int digits) {
    return share_per_box(total, Percent::whole(100), boxes, digits);
}

Money rests_of(const std::vector<BillLine>& lines) {
    Money sum;
    for (const BillLine& line : lines)
        if (line.unit_net) sum += line.unit_net->times(line.rest_charged);
    return sum;
}

/// One surcharge for every maker from whom the job buys less than the limit.
int small_makers(const std::vector<BillLine>& lines, Money limit) {
    std::map<std::string, Money> bought;
    for (const BillLine& line : lines)
        if (line.line_all && !line.maker.empty()) bought[line.maker] += *line.line_all;
    int count = 0;
    for (const auto& [maker, sum] : bought)
        if (sum < limit) ++count;
    return count;
}

double rise_of(const std::vector<BillLine>& lines, const Rule& percent) {
    double sum = 0;
    for (const BillLine& line : lines)
        if (line.line_all && line.months_uncovered > 0)
            sum += escalation(line.line_all->number(), percent.number(), line.months_uncovered);
    return sum;
}

Money base_of(const BillLine& charge, Money goods, Money labour) {
    if (charge.share_of == "material") return goods;
    return charge.share_of == "labour" ? labour : goods + labour;
}

/// Lines and labour of one kind of box; the first box bears the labour of the job.
struct BoxShare {
    const Box* box;
    std::vector<BillLine> lines;
    Money labour;

    BoxShare(const Box& of, const std::vector<BillLine>& bill, const std::vector<LabourLine>& hours)
        : box(&of) {
        for (const BillLine& line : bill)
            if (line.box == of.name) lines.push_back(line);
        for (const LabourLine& line : hours)
            if (line.box == of.name || (line.box.empty() && of.index == 0)) labour += line.cost;
    }
};

Money unit_of(const BillLine& charge, const BoxShare& share, const std::vector<BillLine>& bill,
              const RuleBook& rules, int digits) {
    const PricePolicy& policy = rules.policy;
    const int boxes = share.box->quantity;
    if (charge.share)
        return share_per_box(base_of(charge, goods_of(share.lines), share.labour), *charge.share,
                             boxes, digits);
    if (charge.charge == rests) return per_box(rests_of(share.lines), boxes, digits);
    if (charge.charge == small_orders)
        return per_box(amount_of(*policy.small_order_surcharge)
                           .times(small_makers(bill, amount_of(*policy.small_order_limit))),
                       boxes, digits);
    if (charge.charge == rise) {
        const double each = rise_of(share.lines, *policy.escalation_percent_per_month) / boxes;
        const double factor = static_cast<double>(power_of_ten(digits));
        // the double nearest to a half is that half
        const double units = std::round(each * factor * 1e6) / 1e6;
        return Money::of_steps(std::llround(units) * power_of_ten(Money::places - digits));
    }
    return *charge.unit_net;
}

BillLine charge_line(const char* rule, std::string description, std::string role) {
    BillLine line;
    line.description = std::move(description);
    line.role = std::move(role);
    line.quantity = 1;
    line.unit = "lump_sum";
    line.charge = rule;
    line.unit_net = Money{};
    return line;
}

BillLine line_of(const Charge& charge, int boxes, int digits) {
    BillLine line = charge_line(charge.rule.id.c_str(), charge.description, charge.role);
    if (in_percent(charge)) {
        line.share = Percent::of(charge.rule.value);
        line.share_of = charge.of;
        line.note = line.share->text() + " % of " +
                    (charge.of == "direct" ? "material and labour" : charge.of);
    } else {
        line.unit_net = per_box(amount_of(charge.rule), charge.of == "job" ? boxes : 1, digits);
        line.note = "per " + charge.of;
    }
    return line;
}

std::vector<BillLine> charge_lines(const BidRequest& request, const Box& box, const RuleBook& rules,
                                   int digits) {
    const PricePolicy& policy = rules.policy;
    std::vector<BillLine> lines;
    if (policy.pack_charge != "need")
        lines.push_back(charge_line(rests, "Rests of packs and minimum orders", "accessory"));
    const bool first = box.index == 0; // what is paid once for the job stands there
    if (first && policy.small_order_surcharge && policy.small_order_limit)
        lines.push_back(charge_line(small_orders, "Surcharge on small orders", "accessory"));
    if (policy.escalation_percent_per_month)
        lines.push_back(
            charge_line(rise, "Rise of prices after their validity, reserve", "allowance"));
    for (const Charge* charge : charge_plan(request, box, rules).charges)
        if (first || charge->of != "job") lines.push_back(line_of(*charge, box.quantity, digits));
    return lines;
}

} // namespace

ChargePlan charge_plan(const BidRequest& request, const Box& box, const RuleBook& rules) {
    ChargePlan plan;
    plan.sundries = sundries_left(rules, {}).steps();
    plan.freight = Percent::of(rules.policy.freight_percent.value).steps();
    for (const Charge& charge : rules.charges) {
        if (charge.rule.number() == 0) continue;
        if (!condition_holds(charge.condition, request, box, rules)) continue;
        plan.charges.push_back(&charge);
        if (!in_percent(charge)) continue;
        const std::int64_t steps = Percent::of(charge.rule.value).steps();
        if (charge.of != "labour") plan.of_goods += steps;
        if (charge.of != "material") plan.of_labour += steps;
    }
    return plan;
}

Percent sundries_left(const RuleBook& rules, const std::vector<const Rule*>& shares) {
    std::int64_t left = Percent::of(rules.policy.sundries_percent.value).steps();
    for (const Rule* share : shares) left -= Percent::of(share->value).steps();
    return Percent::of_steps(std::max<std::int64_t>(left, 0));
}

std::int64_t with_charges(std::int64_t articles, std::int64_t labour, const ChargePlan& plan) {
    const std::int64_t goods = raised(articles, plan.sundries);
    return raised(goods, plan.freight + plan.of_goods) + raised(labour, plan.of_labour);
}

Money goods_of(const std::vector<BillLine>& lines) {
    Money sum;
    for (const BillLine& line : lines)
        if (line.charge.empty() && line.line_all) sum += *line.line_all;
    return sum;
}

int months_between(Date from, Date to) {
    return to.days <= from.days ? 0 : ((to.days - from.days) * 12 + 364) / 365;
}

double escalation(double amount, double percent_per_month, int months) {
    return amount * (std::pow(1 + percent_per_month / 100, months) - 1);
}

void reprice_charges(std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
                     const BidRequest& request, const RuleBook& rules, int digits) {
    for (const Box& box : request.boxes) {
        const BoxShare share(box, lines, labour);
        for (BillLine& line : lines) {
            if (line.charge.empty() || line.box != box.name) continue;
            line.unit_net = unit_of(line, share, lines, rules, digits);
            line.line_net = line.unit_net->times(line.quantity).rounded(digits);
            line.line_all = line.line_net->times(box.quantity);
        }
    }
}

void add_charges(std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
                 const BidRequest& request, const RuleBook& rules, int digits) {
    std::vector<BillLine> bill;
    for (const Box& box : request.boxes) {
        for (const BillLine& line : lines)
            if (line.box == box.name) bill.push_back(line);
        for (BillLine& line : charge_lines(request, box, rules, digits)) {
            line.box = box.name;
            bill.push_back(std::move(line));
        }
    }
    reprice_charges(bill, labour, request, rules, digits);
    std::erase_if(bill, [](const BillLine& line) {
        return !line.charge.empty() && line.unit_net->is_zero();
    });
    for (std::size_t i = 0; i < bill.size(); ++i) bill[i].line = static_cast<int>(i) + 1;
    lines = std::move(bill);
}

namespace {

/// Formula of a charge over all boxes of the kind, `paid` their labour; the amounts above stand in
/// it as numbers.
std::string job_formula(const BillLine& charge, const BoxShare& share,
                        const std::vector<BillLine>& bill, const std::string& paid,
                        const Rule* rule, const RuleBook& rules) {
    const std::string amount = rule && rule->before_exchange ? rule->text() : "a";
    const std::string goods = goods_of(share.lines).text(Money::places);
    if (charge.share_of == "material") return goods + " × a ÷ 100";
    if (charge.share_of == "labour") return paid + " × a ÷ 100";
    if (charge.share_of == "direct") return "(" + goods + " + " + paid + ") × a ÷ 100";
    if (charge.charge == rests) return rests_of(share.lines).text(Money::places);
    if (charge.charge == small_orders)
        return steps_text(small_makers(bill, amount_of(*rules.policy.small_order_limit)), 0) +
               " × " + amount;
    if (charge.charge != rise) return amount;
    std::map<int, Money> by_months;
    for (const BillLine& line : share.lines)
        if (line.line_all && line.months_uncovered > 0)
            by_months[line.months_uncovered] += *line.line_all;
    std::string sum;
    for (const auto& [months, rising] : by_months)
        sum += (sum.empty() ? "" : " + ") + rising.text(Money::places) + " × (power(1 + a ÷ 100, " +
               steps_text(months, 0) + ") − 1)";
    return sum;
}

const Rule* rule_of(const BillLine& charge, const RuleBook& rules) {
    const PricePolicy& policy = rules.policy;
    if (charge.charge == small_orders) return &*policy.small_order_surcharge;
    if (charge.charge == rise) return &*policy.escalation_percent_per_month;
    for (const Charge& each : rules.charges)
        if (each.rule.id == charge.charge) return &each.rule;
    return nullptr; // the rests: a word
}

bool for_one_box(const BillLine& charge, const RuleBook& rules) {
    for (const Charge& each : rules.charges)
        if (each.rule.id == charge.charge) return each.of == "box";
    return false;
}

/// The labour that a charge rests on: the figure of the job where it has one kind of box.
std::string paid_term(const BoxShare& share, bool one_kind, BasisEntry& entry) {
    const std::string amount = share.labour.text(Money::places);
    if (!one_kind) return amount;
    entry.inputs.push_back(from_figure("/price/labour", amount, ""));
    return input_letter(entry.inputs.size() - 1);
}

} // namespace

void record_charges(const std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
                    const BidRequest& request, const RuleBook& rules, Recorder& recorder) {
    for (const Box& box : request.boxes) {
        const BoxShare share(box, lines, labour);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const BillLine& line = lines[i];
            if (line.charge.empty() || line.box != box.name) continue;
            const Rule* rule = rule_of(line, rules);
            BasisEntry entry{"/bill/" + steps_text(static_cast<std::int64_t>(i), 0) + "/line_net",
                             line.line_net->text(Money::places),
                             "",
                             "",
                             line.charge,
                             {},
                             rule ? rule->source : "trade-practice 4.1: what is bought in packs"};
            if (rule)
                entry.inputs.push_back(from_rule(
                    rule->id, rule->before_exchange.value_or(rule->value).text(), rule->unit));
            const bool on_labour = line.share_of == "labour" || line.share_of == "direct";
            const std::string paid =
                on_labour ? paid_term(share, request.boxes.size() == 1, entry) : std::string();
            entry.formula = "(" + job_formula(line, share, lines, paid, rule, rules) + ")";
            if (box.quantity > 1 && !for_one_box(line, rules))
                entry.formula += " ÷ " + steps_text(box.quantity, 0);
            recorder.add(std::move(entry));
        }
    }
}

} // namespace backplate
