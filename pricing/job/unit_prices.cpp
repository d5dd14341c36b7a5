#include "pricing/job/unit_prices.h"

#include <algorithm>
#include <cmath>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

bool has_line(const MixLine& mix, std::size_t line) {
    return std::find(mix.lines.begin(), mix.lines.end(), line) != mix.lines.end();
}

/// The cheapest module of the platform that may carry the line.
const Part* module_for(const PanelChoice& choice, std::size_t line) {
    const SearchFacts& search = *choice.search;
    const Part* found = nullptr;
    for (const Part* part : search.book->of_kind("module")) {
        if (part->platform != choice.design->leader->platform) continue;
        if (!may_choose(*part, *search.facts.box, *search.facts.request)) continue;
        for (const MixLine& mix : search.facts.demand.mix)
            for (const ChannelGroup& group : part->groups)
                if (has_line(mix, line) && accepts(group, mix) > 0 &&
                    (!found || *part->net() < *found->net()))
                    found = part;
    }
    return found;
}

/// The module that carries the line now, the cheapest where several do; where the controller's own
/// channels carry it, the cheapest that could.
const Part* module_of(const PanelChoice& choice, std::size_t line) {
    const Demand& demand = choice.search->facts.demand;
    const Part* found = nullptr;
    for (const ModuleUse& use : choice.design->arrangement->member.uses)
        for (std::size_t mix = 0; mix < demand.mix.size(); ++mix) {
            const bool carries = use.carried[mix] > 0 && use.part->kind == "module" &&
                                 has_line(demand.mix[mix], line);
            if (carries && (!found || *use.part->net() < *found->net())) found = use.part;
        }
    return found ? found : module_for(choice, line);
}

/// What grows with one more point: counts of the hours, and net prices of one box.
struct Growth {
    BoxCounts counts;
    double material = 0;
};

double pieces_of(const std::vector<const Rule*>& rows) {
    double sum = 0;
    for (const Rule* rule : rows) sum += rule->number();
    return sum;
}

void add_part(Growth& growth, const Part* part, double pieces) {
    if (part && part->net()) growth.material += part->net()->number() * pieces;
}

void add_wires(Growth& growth, const SearchFacts& search, double wires) {
    growth.counts.wires += static_cast<int>(std::llround(wires));
    const auto length = search.rules->wires.find("length");
    if (length != search.rules->wires.end())
        add_part(growth, search.parts.wire, wires * length->second.number());
}

void add_terminals(Growth& growth, const SearchFacts& search, const ChannelWiring& wiring) {
    const double pieces = pieces_of(wiring.terminals);
    double plain = pieces;
    for (const TerminalShare& share : wiring.functions) {
        const double own = std::min<double>(plain, share.pieces);
        add_part(growth, search.parts.terminal_of(share.function), own);
        plain -= own;
    }
    add_part(growth, search.parts.terminal, plain);
    growth.counts.terminals += static_cast<int>(std::llround(pieces));
}

void add_channel(Growth& growth, const SearchFacts& search, std::size_t index) {
    const DemandLine& line = search.facts.demand.lines[index];
    const LineWiring& wiring = search.facts.wiring[index];
    const ChannelWiring& one = line.interface ? wiring.via : wiring.direct;
    add_terminals(growth, search, one);
    add_wires(growth, search, pieces_of(one.wires));
    for (const InterfaceFact& fact : search.facts.interfaces)
        if (fact.line == index) {
            add_part(growth, fact.part, 1);
            ++growth.counts.devices_small;
            ++growth.counts.devices;
        }
    const Signal& signal = *line.signal;
    ++growth.counts.points;
    ++growth.counts.points_by_class[signal.work_class];
    ++growth.counts.points_by_signal[signal.key];
    ++growth.counts.tested_by_class[signal.work_class];
    growth.counts.shields += signal.shielded ? 1 : 0;
}

void add_module(Growth& growth, const SearchFacts& search, const Part& module,
                const std::string& signal) {
    add_part(growth, &module, 1);
    for (const Accessory& accessory : module.accessories)
        add_part(growth, search.book->find(accessory.part), accessory.quantity);
    ++growth.counts.modules;
    ++growth.counts.modules_by_signal[signal];
    if (search.rules->sheets.contains("typical module")) ++growth.counts.sheets_typical;
    const auto wires = search.rules->wires.find("per module");
    if (wires != search.rules->wires.end()) add_wires(growth, search, wires->second.number());
}

/// Direct cost of the growth in one box.
Money direct_of(const Growth& growth, const SearchFacts& search) {
    const int boxes = search.facts.box->quantity;
    const BoxCounts none;
    const std::int64_t labour =
        labour_cost(search.plan, growth.counts) - labour_cost(search.plan, none);
    const std::int64_t material =
        std::llround(growth.material * boxes * power_of_ten(Money::places));
    return Money::of_steps(with_charges(material, labour, search.charges) / boxes);
}

Money price_of_growth(Money direct, const PriceResult& price) {
    const std::int64_t step = power_of_ten(Money::places - price.digits);
    return Money::of_steps(multiply_divide(direct.steps(), (price.price - price.rounding).steps(),
                                           price.direct.steps() * step, Rounding::half_away))
        .times(step);
}

} // namespace

std::vector<UnitPrice> unit_prices(const PanelChoice& choice, const PriceResult& price) {
    std::vector<UnitPrice> prices;
    const SearchFacts& search = *choice.search;
    const auto& lines = search.facts.demand.lines;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string& signal = lines[i].signal->key;
        const auto same = [&](const UnitPrice& known) { return known.signal == signal; };
        if (price.direct.is_zero() || std::any_of(prices.begin(), prices.end(), same)) continue;
        UnitPrice unit;
        unit.box = search.facts.box->name;
        unit.signal = signal;
        Growth growth;
        add_channel(growth, search, i);
        unit.direct = direct_of(growth, search);
        unit.price = price_of_growth(unit.direct, price);
        if (const Part* module = module_of(choice, i)) {
            unit.module = module->key;
            add_module(growth, search, *module, signal);
            unit.direct_with_module = direct_of(growth, search);
            unit.with_module = price_of_growth(*unit.direct_with_module, price);
        }
        prices.push_back(std::move(unit));
    }
    return prices;
}

void record_unit_prices(const std::vector<UnitPrice>& prices, const PriceResult& price,
                        Recorder& recorder) {
    const auto figure = [&](const char* key, Money amount) {
        return from_figure(std::string("/price/") + key, amount.text(price.digits), price.currency);
    };
    const auto add = [&](std::size_t place, const char* key, Money direct, Money value) {
        recorder.add({"/unit_prices/" + steps_text(static_cast<std::int64_t>(place), 0) + "/" + key,
                      value.text(price.digits),
                      price.currency,
                      direct.text(Money::places) + " × (a − b) ÷ c",
                      "price_policy/chain",
                      {figure("price", price.price), figure("rounding", price.rounding),
                       figure("direct", price.direct)},
                      "trade-practice 1.2: direct cost of one more point, priced as the job"});
    };
    for (std::size_t i = 0; i < prices.size(); ++i) {
        add(i, "price", prices[i].direct, prices[i].price);
        if (prices[i].with_module)
            add(i, "with_module", *prices[i].direct_with_module, *prices[i].with_module);
    }
}

} // namespace backplate
