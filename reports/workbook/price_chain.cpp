#include <optional>
#include <string>

#include "pricing/cost/roll_up.h"
#include "pricing/values/decimal.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

/// One line of the chain: what it is, its rate, its amount as formula and result, and a remark.
struct Step {
    const char* title;
    const char* name; ///< of the amount's cell; null: none
    std::string formula;
    Money amount;
    std::string remark;
    bool sum = false;
};

class Chain {
public:
    Chain(const Source& source, Page& page, int row) : source_(source), page_(page), row_(row) {}

    int row() const { return row_; }
    std::string rounded(const std::string& expression) const {
        return "ROUND(" + expression + "," + steps_text(source_.digits(), 0) + ")";
    }
    void rate(double value, const Style& style, const char* name) {
        page_.number({row_, 1}, value, look::changeable(style));
        page_.name_cell({row_, 1}, name);
    }
    void step(const Step& step) {
        const auto styled = [&](const Style& style) {
            return step.sum ? look::total(style) : style;
        };
        page_.text({row_, 0}, step.title, styled(look::text()));
        if (step.sum) page_.blank({row_, 1}, styled(look::text()));
        page_.formula({row_, 2}, step.formula, step.amount.number(),
                      styled(look::money(source_.digits())));
        if (step.name != nullptr) page_.name_cell({row_, 2}, step.name);
        page_.text({row_, 3}, step.remark, look::label());
        ++row_;
    }
    /// A line without an amount.
    void remark(const char* title, const char* text) {
        page_.text({row_, 0}, title, look::text());
        page_.text({row_++, 3}, text, look::label());
    }
    /// A share of another cell: the rate's cell is named, the amount is rounded once.
    void share(const Step& step, double percent, const char* rate_name) {
        rate(percent, look::percent(), rate_name);
        this->step(step);
    }

private:
    const Source& source_;
    Page& page_;
    int row_;
};

const char* bought_work(const Source& source) {
    for (const BillLine& line : source.estimate.bill)
        if (line.role == "subcontract" && line.line_all) return "subcontract";
    return "0";
}

const char* freight_base(const Source& source) {
    for (const BillLine& line : source.estimate.bill)
        if (!line.charge.empty() && line.line_all) return "(material-charges)";
    return "material";
}

/// A percentage of each cost class: three rates, and their sum as one step.
struct ClassRates {
    const char* titles[3];
    const char* names[3];
};
constexpr ClassRates overhead_rates{
    {"Overhead on material", "Overhead on labour", "Overhead on bought work"},
    {"overhead_material", "overhead_labour", "overhead_subcontract"}};
constexpr ClassRates margin_rates{
    {"Margin of material", "Margin of labour", "Margin of bought work"},
    {"margin_material", "margin_labour", "margin_subcontract"}};

void write_class_rates(Chain& chain, const ClassRates& rates, const ClassPercents& percents) {
    const Percent values[3] = {percents.material, percents.labour, percents.subcontract};
    for (int i = 0; i < 3; ++i) {
        chain.rate(static_cast<double>(values[i].steps()) / 1e4, look::percent(), rates.names[i]);
        chain.remark(rates.titles[i], "by class");
    }
}

void write_overhead(const Source& source, const PriceResult& price, Chain& chain) {
    const PricePolicy& policy = source.rules.policy;
    const bool additive = policy.order == "additive";
    if (policy.overhead_style == "per_hour") {
        chain.rate(policy.overhead_per_hour ? policy.overhead_per_hour->number() : 0,
                   look::unit_price(source.digits()), "overhead_per_hour");
        return chain.step({"Overhead", "overhead", chain.rounded("hours_total*overhead_per_hour"),
                           price.overhead, "per labour hour"});
    }
    if (policy.overhead_style == "by_class") {
        write_class_rates(chain, overhead_rates, overhead_percents(policy));
        const std::string bought = bought_work(source);
        const std::string weighed = "ROUND((material+freight-" + bought +
                                    ")*overhead_material/100,4)+ROUND(labour*overhead_labour/100,4)"
                                    "+ROUND(" +
                                    bought + "*overhead_subcontract/100,4)";
        const std::string raise = additive ? "" : "*(100+contingency_percent)/100";
        return chain.step({"Overhead", "overhead", chain.rounded("(" + weighed + ")" + raise),
                           price.overhead, additive ? "of direct cost" : "with contingency"});
    }
    const char* percent = additive ? "overhead_of_direct" : "overhead_percent";
    const std::string base = additive ? "direct*" : "(direct+contingency)*";
    chain.share({"Overhead", "overhead", chain.rounded(base + percent + "/100"), price.overhead,
                 additive ? "of direct cost" : "of direct cost and contingency"},
                policy.overhead.number(), percent);
}

void write_cost(const Source& source, const PriceResult& price, Chain& chain) {
    const Commercial& terms = source.estimate.request.commercial;
    const PricePolicy& policy = source.rules.policy;
    chain.step({"Material", nullptr, "material", price.material, "sheet Bill of material"});
    const std::string goods = freight_base(source);
    chain.share({"Freight", "freight", chain.rounded(goods + "*freight_percent/100"), price.freight,
                 goods == "material" ? "of material" : "of material without charges"},
                policy.freight_percent.number(), "freight_percent");
    chain.step({"Labour", nullptr, "labour", price.labour, "sheet Hours"});
    chain.step({"Direct cost", "direct", chain.rounded("material+freight+labour"), price.direct, "",
                true});
    chain.share({"Contingency", "contingency", chain.rounded("direct*contingency_percent/100"),
                 price.contingency, "of direct cost"},
                static_cast<double>(terms.contingency.steps()) / 1e4, "contingency_percent");
    write_overhead(source, price, chain);
    chain.step(
        {"Cost", "cost", chain.rounded("direct+contingency+overhead"), price.cost, "", true});
}

/// Cost split by the classes' shares of direct cost; bought work takes the rest of the rounding.
std::string margin_of_classes(const Source& source, const Chain& chain) {
    const std::string material =
        chain.rounded(std::string("cost*(material+freight-") + bought_work(source) + ")/direct");
    const std::string labour = chain.rounded("cost*labour/direct");
    const auto of = [&](const std::string& amount, const std::string& margin) {
        return chain.rounded(amount + "*" + margin + "/(100-" + margin + ")");
    };
    return "IF(direct=0,0," + of(material, "margin_material") + "+" + of(labour, "margin_labour") +
           "+" + of("(cost-" + material + "-" + labour + ")", "margin_subcontract") + ")";
}

void write_margin(const Source& source, const PriceResult& price, Chain& chain) {
    const Commercial& terms = source.estimate.request.commercial;
    const PricePolicy& policy = source.rules.policy;
    const auto number = [](Percent percent) { return static_cast<double>(percent.steps()) / 1e4; };
    if (margin_by_class(source.estimate.request, policy)) {
        write_class_rates(chain, margin_rates,
                          margin_percents(policy, terms.margin.value_or(Percent())));
        chain.step({"Margin", "margin", margin_of_classes(source, chain), price.margin,
                    "of the price, by class"});
    } else if (terms.markup) {
        chain.share({"Mark-up", "margin", chain.rounded("cost*markup_percent/100"), price.margin,
                     "of cost"},
                    number(*terms.markup), "markup_percent");
    } else {
        chain.share({"Margin", "margin", chain.rounded("cost*margin_percent/(100-margin_percent)"),
                     price.margin, "of the price before concession"},
                    number(terms.margin.value_or(Percent())), "margin_percent");
    }
    chain.share({"Concession", "concession",
                 "-" + chain.rounded("(cost+margin)*concession_percent/100"), -price.concession,
                 "of cost and margin"},
                number(terms.concession), "concession_percent");
}

void write_rounding(const Source& source, const PriceResult& price, Chain& chain) {
    const Rule& step = source.rules.policy.round_up_to;
    const std::string before = chain.rounded("cost+margin+concession");
    chain.rate(step.number(), Style{}.to(Style::Side::right), "price_step");
    chain.step({"Rounding up to", "rounding", chain.rounded("price_total-" + before),
                price.rounding, "next whole multiple"});
    chain.step({"Price", "price_total",
                chain.rounded("IF(price_step=0," + before + ",ROUNDUP(ROUND(" + before +
                              "/price_step,8),0)*price_step)"),
                price.price, source.price_mark(), true});
}

void write_tax(const Source& source, const PriceResult& price, Chain& chain) {
    const auto& percent = source.estimate.request.commercial.tax;
    if (!percent || !price.tax) {
        chain.remark("Tax", "not included");
        return;
    }
    chain.share(
        {"Tax", "tax", chain.rounded("price_total*tax_percent/100"), *price.tax, "of the price"},
        static_cast<double>(percent->steps()) / 1e4, "tax_percent");
    chain.step({"Price with tax", "price_with_tax", chain.rounded("price_total+tax"),
                price.price + *price.tax, source.price_mark(), true});
}

/// What remains of the price after its cost, in percent with one decimal.
double margin_left(const PriceResult& price) {
    if (price.price.is_zero()) return 0;
    const Money left = price.price - price.cost;
    const auto tenths =
        multiply_divide(left.steps(), 1000, price.price.steps(), Rounding::half_away);
    return static_cast<double>(tenths) / 10;
}

} // namespace

int write_price_chain(const Source& source, Page& page, int row) {
    const PriceResult& price = *source.estimate.price;
    Chain chain(source, page, row);
    write_cost(source, price, chain);
    write_margin(source, price, chain);
    write_rounding(source, price, chain);
    write_tax(source, price, chain);
    row = chain.row() + 1;

    page.text({row, 0}, "Margin in the price", look::label());
    page.formula({row, 2}, "IF(price_total=0,0,ROUND((price_total-cost)/price_total*100,1))",
                 margin_left(price), look::one_decimal());
    page.text({row, 3}, "% after concession and rounding", look::label());
    ++row;
    page.text({row, 0}, "Price as estimated", look::label());
    page.number({row, 2}, price.price.number(), look::money(source.digits()));
    page.name_cell({row, 2}, "price_estimated");
    page.text({row, 3}, "fixed; does not follow the cells", look::label());
    ++row;
    page.text({row, 0}, "Changed since by", look::label());
    page.formula({row, 2}, chain.rounded("price_total-price_estimated"), 0,
                 look::money(source.digits()));
    page.text({row, 3}, "shaded cells may be changed", look::label());
    return row + 1;
}

} // namespace backplate
