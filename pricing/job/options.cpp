#include "pricing/job/options.h"

#include <algorithm>

#include "pricing/job/difference.h"
#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string place_of(std::size_t option) {
    return steps_text(static_cast<std::int64_t>(option), 0);
}

/// The title with descriptions in place of keys of parts.
std::string without_keys(const std::string& title, const PriceBook& book) {
    std::string text, word;
    const auto end_word = [&] {
        const Part* part = book.find(word);
        text += part ? part->description : word;
        word.clear();
    };
    for (const char c : title) {
        if (std::string_view(" ,;:()").find(c) == std::string_view::npos) {
            word += c;
            continue;
        }
        end_word();
        text += c;
    }
    end_word();
    return text;
}

OptionResult priced(const Estimate& base, const AskedOption& asked, const PriceBook& book,
                    const RuleBook& rules, Work& work) {
    Work own = work.beside({.range = false});
    const Estimate changed = price_once(*asked.changed, book, rules, own);
    work.add_trial(own);
    OptionResult result;
    result.title = asked.title;
    result.kind = asked.kind;
    result.offered = without_keys(asked.title, book);
    result.buildable = changed.buildable;
    result.limits = limits_of(changed);
    if (changed.price) result.price = changed.price->price;
    if (changed.price && base.price) result.difference = difference_of(base, changed);
    return result;
}

/// "Stainless enclosure, instead of what the base holds: 1,240.00 EUR more."
OfferText sentence(const OptionResult& option, const PriceResult& price) {
    const Money difference = option.difference->price;
    const bool less = difference < Money();
    std::string text = option.offered;
    text += option.kind == "added"     ? ", on top of the base: "
            : option.kind == "omitted" ? ", left out of the base: "
                                       : ", instead of what the base holds: ";
    text += (less ? -difference : difference).text(price.digits) + " " + price.currency;
    text += less ? " less." : " more.";
    OfferText result;
    result.section = "option";
    result.subject = option.offered;
    result.text = std::move(text);
    result.rule = "words/commercial.options[].kind " + option.kind;
    return result;
}

void record(const OptionResult& option, std::size_t at, const PriceResult& price,
            std::vector<BasisEntry>& basis) {
    basis.push_back({"/options/" + place_of(at) + "/difference/price",
                     option.difference->price.text(Money::places),
                     price.currency,
                     option.price->text(Money::places) + " − a",
                     "",
                     {from_figure("/price/price", price.price.text(Money::places), price.currency)},
                     "two whole runs, the second with the change of the option"});
}

} // namespace

void add_option_prices(Estimate& base, const PriceBook& book, const RuleBook& rules, Work& work) {
    if (base.request.options.empty()) return;
    FindingSink sink(rules, base.request.inch, base.findings);
    for (std::size_t i = 0; i < base.request.options.size(); ++i) {
        base.options.push_back(priced(base, base.request.options[i], book, rules, work));
        const OptionResult& option = base.options.back();
        if (!option.buildable)
            sink.add("OPTION_NOT_BUILT", "/commercial/options/" + place_of(i),
                     {{"option", option.title}, {"limits", option.limits}}, option.title);
        if (!option.difference) continue;
        base.offer_texts.push_back(sentence(option, *base.price));
        record(option, i, *base.price, base.basis);
    }
    sort_findings(base.findings, rules);
}

} // namespace backplate
