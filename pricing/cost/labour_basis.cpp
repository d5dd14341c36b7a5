#include <cmath>

#include "pricing/cost/labour_groups.h"

namespace backplate {
namespace {

/// " × min(a × b, c)": the hand factors of the class and their limit.
std::string factor_term(const LabourPlan& plan, const std::string& work_class, BasisEntry& entry) {
    std::string product;
    const auto input = [&](const Rule& rule) {
        entry.inputs.push_back(from_rule(rule.id, rule.text(), rule.unit));
        return input_letter(entry.inputs.size() - 1);
    };
    for (const HandFactor* factor : plan.factors)
        if (factor->work_class == work_class)
            product += (product.empty() ? "" : " × ") + input(factor->rule);
    if (product.empty()) return {};
    if (!plan.most_factor) return " × " + product;
    return " × min(" + product + ", " + input(*plan.most_factor) + ")";
}

/// " × a": what turns hours of one box into hours of all.
std::string batch_term(const LabourPlan& plan, bool learning, BasisEntry& entry) {
    if (plan.boxes == 1) return {};
    const std::string box = "/boxes/" + steps_text(static_cast<std::int64_t>(plan.box_index), 0);
    entry.inputs.push_back(learning
                               ? from_figure(box + "/batch_factor", steps_text(plan.batch, 6), "")
                               : from_figure(box + "/quantity", steps_text(plan.boxes, 0), ""));
    return " × " + input_letter(entry.inputs.size() - 1);
}

/// "3 × a ÷ 60": a count as a plain number, the norm by its row.
std::string counted_term(const LabourPart& part, BasisEntry& entry) {
    const LabourNorm& norm = *part.entry->norm;
    std::string term = number_text(static_cast<double>(part.count) / part.entry->driver.parts) +
                       " × " + input_letter(entry.inputs.size());
    if (norm.hours_per_unit != 1) term += " ÷ 60";
    entry.inputs.push_back(from_rule(norm.rule.id, norm.rule.text(), norm.rule.unit));
    term += factor_term(*part.plan, norm.work_class, entry);
    if (!norm.once) term += batch_term(*part.plan, norm.learning, entry);
    return term;
}

/// "(a + b) × c ÷ 100": the printed hours that the share counts; as numbers where there are too
/// many for the letters.
std::string share_term(const LabourPart& part, const std::vector<LabourGroup>& groups,
                       const std::vector<LabourLine>& lines, std::size_t box, BasisEntry& entry) {
    constexpr std::size_t most_inputs = 40;
    const bool as_numbers = entry.inputs.size() + lines.size() > most_inputs;
    std::string sum;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const LabourLine& line = lines[i];
        if (groups[i].box != box) continue;
        if (!counts_hours_of(*part.entry, line.activity, line.work_class)) continue;
        sum += sum.empty() ? "" : " + ";
        if (as_numbers) {
            sum += line.hours.text();
            continue;
        }
        sum += input_letter(entry.inputs.size());
        entry.inputs.push_back(
            from_figure("/labour/" + steps_text(static_cast<std::int64_t>(i), 0) + "/hours",
                        line.hours.text(), "h"));
    }
    const LabourNorm& norm = *part.entry->norm;
    std::string term = "(" + sum + ") × " + input_letter(entry.inputs.size()) + " ÷ " +
                       steps_text(std::llround(1 / norm.hours_per_unit), 0);
    entry.inputs.push_back(from_rule(norm.rule.id, norm.rule.text(), norm.rule.unit));
    if (part.entry->driver.further_boxes) term += " × " + steps_text(part.plan->boxes - 1, 0);
    return term;
}

void record_group(const std::vector<LabourGroup>& groups, std::size_t index,
                  const std::vector<LabourLine>& lines, Recorder& recorder) {
    const LabourGroup& group = groups[index];
    const LabourLine& line = lines[index];
    const Rule& first = group.parts.front().entry->norm->rule;
    BasisEntry entry{"/labour/" + steps_text(static_cast<std::int64_t>(index), 0) + "/hours",
                     line.hours.text(),
                     "h",
                     "",
                     first.id,
                     {},
                     first.source};
    for (const LabourPart& part : group.parts) {
        if (!entry.formula.empty()) entry.formula += " + ";
        entry.formula += part.entry->driver.count
                             ? counted_term(part, entry)
                             : share_term(part, groups, lines, part.plan->box_index, entry);
    }
    if (group.own_hours > 0)
        entry.formula += " + " + steps_text(group.own_hours, 3) +
                         batch_term(*group.parts.front().plan, false, entry);
    recorder.add(std::move(entry));
}

/// Rate and cost of a line; a rate in another currency comes from the row and the exchange rate.
void record_cost(const LabourGroup& group, std::size_t index, const LabourLine& line,
                 const LabourPlan& plan, int digits, Recorder& recorder) {
    const std::string at = "/labour/" + steps_text(static_cast<std::int64_t>(index), 0);
    const Rule& rate = *group.rate;
    if (rate.before_exchange && plan.exchange)
        recorder.add(
            {at + "/rate",
             line.rate.text(Money::places),
             "per h",
             "a × b × (1 + c ÷ 100)",
             plan.exchange->rate.id,
             {from_rule(rate.id, rate.before_exchange->text(), rate.unit),
              from_rule(plan.exchange->rate.id, plan.exchange->rate.text(), ""),
              from_rule(plan.exchange->rate.id, plan.exchange->buffer_percent.text(), "%")},
             rate.source});
    const BasisInput hourly =
        rate.before_exchange ? from_figure(at + "/rate", line.rate.text(Money::places), "per h")
                             : from_rule(rate.id, rate.text(), rate.unit);
    recorder.add({at + "/cost",
                  line.cost.text(digits),
                  "",
                  "a × b",
                  rate.id,
                  {from_figure(at + "/hours", line.hours.text(), "h"), hourly},
                  rate.source});
}

} // namespace

void record_labour(const std::vector<LabourGroup>& groups, const std::vector<LabourLine>& lines,
                   int digits, Recorder& recorder) {
    for (std::size_t i = 0; i < groups.size(); ++i) {
        record_group(groups, i, lines, recorder);
        record_cost(groups[i], i, lines[i], *groups[i].parts.front().plan, digits, recorder);
    }
}

} // namespace backplate
