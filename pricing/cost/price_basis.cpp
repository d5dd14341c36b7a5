#include "pricing/cost/charges.h"
#include "pricing/cost/roll_up.h"

namespace backplate {
namespace {

/// Adds the entries of the chain, each with its inputs.
class PriceBasis {
public:
    PriceBasis(const PriceResult& price, const std::vector<BillLine>& bill,
               const std::vector<LabourLine>& labour, const BidRequest& request,
               const RuleBook& rules, Recorder& recorder)
        : price_(price), bill_(bill), labour_(labour), terms_(request.commercial),
          policy_(rules.policy), draws_(rules.draws), correlation_(rules.labour_correlation),
          by_class_(margin_by_class(request, rules.policy)), recorder_(recorder) {}

    void write() {
        add("material", price_.material, sum_of_bill(), "price_policy/chain", {});
        add("labour", price_.labour, sum_of_labour(), "price_policy/chain", {});
        freight();
        add("direct", price_.direct, "a + b + c", "price_policy/chain",
            {figure("material", price_.material), figure("freight", price_.freight),
             figure("labour", price_.labour)});
        add("contingency", price_.contingency, "a × b ÷ 100", "price_policy/contingency",
            {figure("direct", price_.direct),
             from_request("/commercial/contingency_percent", terms_.contingency.text(), "%")});
        overhead();
        add("cost", price_.cost, "a + b + c", "price_policy/chain",
            {figure("direct", price_.direct), figure("contingency", price_.contingency),
             figure("overhead", price_.overhead)});
        margin();
        price();
        base();
        range("p50", price_.p50, "0.5");
        range("p80", price_.p80, "0.8");
        if (price_.tax)
            add("tax", *price_.tax, "a × b ÷ 100", "price_policy/tax_rounding",
                {figure("price", price_.price),
                 from_request("/commercial/tax_percent", terms_.tax->text(), "%")});
    }

private:
    void add(const char* key, Money amount, std::string formula, std::string rule,
             std::vector<BasisInput> inputs) {
        recorder_.add({std::string("/price/") + key, amount.text(price_.digits), price_.currency,
                       std::move(formula), std::move(rule), std::move(inputs),
                       "trade-practice 4.2, " + policy_.order + " order"});
    }
    BasisInput figure(const char* key, Money amount) const {
        return from_figure(std::string("/price/") + key, amount.text(price_.digits),
                           price_.currency);
    }
    static BasisInput rule(const Rule& row) { return from_rule(row.id, row.text(), row.unit); }
    std::string text(Money amount) const { return amount.text(Money::places); }

    /// The costs of the hours' lines as numbers: they have no places for so many inputs.
    std::string sum_of_labour() const {
        std::string sum;
        for (const LabourLine& line : labour_)
            sum += (sum.empty() ? "" : " + ") + line.cost.text(price_.digits);
        return sum.empty() ? "0" : sum;
    }

    std::string sum_of_bill() const {
        std::string sum;
        for (const BillLine& line : bill_)
            if (line.line_all)
                sum += (sum.empty() ? "" : " + ") + line.line_all->text(price_.digits);
        return sum.empty() ? "0" : sum;
    }

    void freight() {
        const Rule& percent = policy_.freight_percent;
        const Money goods = goods_of(bill_);
        if (goods == price_.material)
            add("freight", price_.freight, "a × b ÷ 100", percent.id,
                {figure("material", price_.material), rule(percent)});
        else
            add("freight", price_.freight, "(a − " + text(price_.material - goods) + ") × b ÷ 100",
                percent.id, {figure("material", price_.material), rule(percent)});
    }

    void overhead() {
        const bool additive = policy_.order == "additive";
        if (policy_.overhead_style == "per_hour") {
            Hours hours;
            for (const LabourLine& line : labour_) hours += line.hours;
            if (policy_.overhead_per_hour)
                add("overhead", price_.overhead,
                    hours.text() + " × " + policy_.overhead_per_hour->text(),
                    policy_.overhead_per_hour->id, {});
            return;
        }
        if (policy_.overhead_style == "by_class") return overhead_of_classes(additive);
        if (additive)
            add("overhead", price_.overhead, "a × b ÷ 100", policy_.overhead.id,
                {figure("direct", price_.direct), rule(policy_.overhead)});
        else
            add("overhead", price_.overhead, "(a + b) × c ÷ 100", policy_.overhead.id,
                {figure("direct", price_.direct), figure("contingency", price_.contingency),
                 rule(policy_.overhead)});
    }

    void overhead_of_classes(bool additive) {
        const ClassCosts costs = class_costs(price_, bill_);
        const auto row = [&](const OptionalRule& own) { return own ? *own : policy_.overhead; };
        std::vector<BasisInput> inputs{rule(row(policy_.overhead_material)),
                                       rule(row(policy_.overhead_labour)),
                                       rule(row(policy_.overhead_subcontract))};
        std::string formula = "(" + text(costs.material) + " × a + " + text(costs.labour) +
                              " × b + " + text(costs.subcontract) + " × c) ÷ 100";
        if (!additive) {
            formula += " × (1 + d ÷ 100)";
            inputs.push_back(
                from_request("/commercial/contingency_percent", terms_.contingency.text(), "%"));
        }
        add("overhead", price_.overhead, formula, "price_policy/overhead_style", std::move(inputs));
    }

    BasisInput margin_input() const {
        const bool markup = terms_.markup.has_value();
        const Percent percent = markup ? *terms_.markup : terms_.margin.value_or(Percent{});
        return from_request(markup ? "/commercial/markup_percent" : "/commercial/margin_percent",
                            percent.text(), "%");
    }

    void margin() {
        if (by_class_)
            add("margin", price_.margin, margin_formula("a"), "price_policy/margin_style",
                {figure("cost", price_.cost)});
        else
            add("margin", price_.margin, terms_.markup ? "a × b ÷ 100" : "a × b ÷ (100 − b)",
                "price_policy/margin", {figure("cost", price_.cost), margin_input()});
        add("concession", price_.concession, "(a + b) × c ÷ 100", "price_policy/chain",
            {figure("cost", price_.cost), figure("margin", price_.margin),
             from_request("/commercial/concession_percent", terms_.concession.text(), "%")});
    }

    /// Cost split by the classes' shares of direct cost; each rounded, then its margin.
    std::string margin_formula(const std::string& cost) const {
        const ClassCosts costs = class_costs(price_, bill_);
        const ClassPercents percents = margin_percents(policy_, terms_.margin.value_or(Percent{}));
        const std::string digits = steps_text(price_.digits, 0);
        const auto part = [&](Money own) {
            return "round(" + cost + " × " + text(own) + " ÷ " + text(price_.direct) + ", " +
                   digits + ")";
        };
        const auto of = [&](const std::string& amount, Percent percent) {
            return "round(" + amount + " × " + percent.text() + " ÷ (100 − " + percent.text() +
                   "), " + digits + ")";
        };
        const std::string material = part(costs.material), labour = part(costs.labour);
        return of(material, percents.material) + " + " + of(labour, percents.labour) + " + " +
               of("(" + cost + " − " + material + " − " + labour + ")", percents.subcontract);
    }

    void price() {
        const Rule& step = policy_.round_up_to;
        const std::vector<BasisInput> chain{figure("cost", price_.cost),
                                            figure("margin", price_.margin),
                                            figure("concession", price_.concession)};
        std::vector<BasisInput> inputs = chain;
        inputs.push_back(rule(step));
        add("price", price_.price, "ceil((a + b − c) ÷ d) × d", step.id, std::move(inputs));
        inputs = {figure("price", price_.price)};
        inputs.insert(inputs.end(), chain.begin(), chain.end());
        add("rounding", price_.rounding, "a − (b + c − d)", step.id, std::move(inputs));
    }

    /// No closed formula: the sum of material and of every line of hours, each drawn between its
    /// low and high value, stays below the figure with this chance; then overhead and margin.
    void range(const char* key, Money amount, const char* chance) {
        std::vector<BasisInput> inputs{rule(correlation_), rule(policy_.material_low_percent),
                                       rule(policy_.material_high_percent)};
        if (draws_) inputs.push_back(rule(*draws_));
        add(key, amount, std::string("simulated(") + chance + ", a, b, c" + (draws_ ? ", d)" : ")"),
            "risk/labour_correlation", std::move(inputs));
    }

    void base() {
        if (policy_.overhead_style != "percent" || by_class_) {
            // overhead and margin of the direct cost alone: they stand in it as a number
            add("base", price_.base, "a + " + text(price_.base - price_.direct),
                "price_policy/chain", {figure("direct", price_.direct)});
            return;
        }
        add("base", price_.base,
            terms_.markup ? "a × (1 + b ÷ 100) × (1 + c ÷ 100)"
                          : "a × (1 + b ÷ 100) ÷ (1 − c ÷ 100)",
            "price_policy/chain",
            {figure("direct", price_.direct), rule(policy_.overhead), margin_input()});
    }

    const PriceResult& price_;
    const std::vector<BillLine>& bill_;
    const std::vector<LabourLine>& labour_;
    const Commercial& terms_;
    const PricePolicy& policy_;
    const OptionalRule& draws_;
    const Rule& correlation_;
    bool by_class_;
    Recorder& recorder_;
};

} // namespace

void record_price(const PriceResult& price, const std::vector<BillLine>& bill,
                  const std::vector<LabourLine>& labour, const BidRequest& request,
                  const RuleBook& rules, Recorder& recorder) {
    PriceBasis(price, bill, labour, request, rules, recorder).write();
}

} // namespace backplate
