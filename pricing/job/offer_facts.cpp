#include <algorithm>
#include <array>

#include "pricing/job/findings.h"
#include "pricing/job/offer_texts.h"
#include "pricing/request/node_values.h"

namespace backplate {
namespace {

constexpr std::string_view scope_prefix = "scope.", circumstance_prefix = "circumstance.";

std::string whole(std::int64_t value) { return steps_text(value, 0); }

/// The word as it was sent where that is not_stated (its default is filled in), else as filled.
std::string scope_fact(const OfferView& view, std::string_view key) {
    const std::string pointer = "/scope/" + std::string(key);
    const Node* sent = at_pointer(view.estimate.request.sent, pointer);
    if (sent && sent->text == "not_stated") return sent->text;
    const Node* node = at_pointer(view.estimate.request.filled, pointer);
    if (!node) return {};
    if (const auto number = number_value(*node)) return number_text(*number);
    return node->text;
}

std::string practice(const OfferView& view) {
    return view.estimate.request.north_america ? "north_america" : "iec";
}

std::string spare_kind(const OfferView& view) {
    switch (view.estimate.request.spare.kind) {
    case SpareKind::unstated: return "unstated";
    case SpareKind::wired: return "wired";
    case SpareKind::installed: return "installed";
    case SpareKind::slot: return "slot";
    }
    return {};
}

std::string delivery_term(const OfferView& view) {
    return view.estimate.request.commercial.delivery_term;
}

std::string cooling(const OfferView& view) {
    const std::string& stage = view.result.heat.stage;
    return stage.empty() ? "none" : stage;
}

std::string enclosure(const OfferView& view) {
    switch (view.box.choices.enclosure) {
    case EnclosureChoice::choose:
    case EnclosureChoice::part: return "ours";
    case EnclosureChoice::by_client: return "by_client";
    case EnclosureChoice::plate_only: return "plate_only";
    case EnclosureChoice::existing_plate: return "existing_plate";
    }
    return {};
}

std::string fault_current(const OfferView& view) {
    return view.box.site.fault_current_ka ? "known" : "unknown";
}

std::string tax(const OfferView& view) {
    return view.estimate.request.commercial.tax ? "stated" : "none";
}

std::string approvals(const OfferView& view) {
    return whole(static_cast<std::int64_t>(view.box.site.approvals.size()));
}

std::string quantity(const OfferView& view) { return whole(view.box.quantity); }

std::string room_percent(const OfferView& view) { return view.box.choices.room.text(); }

std::string backup_minutes(const OfferView& view) {
    return number_text(view.box.choices.backup_minutes);
}

std::string feeds(const OfferView& view) { return whole(view.box.site.feeds); }

std::string estimate_class(const OfferView& view) {
    return whole(view.estimate.request.estimate_class);
}

struct WordFact {
    std::string_view key;
    std::string (*of)(const OfferView&);
};
constexpr auto word_facts = std::array{
    WordFact{"practice", practice},
    WordFact{"spare.kind", spare_kind},
    WordFact{"delivery_term", delivery_term},
    WordFact{"cooling", cooling},
    WordFact{"enclosure", enclosure},
    WordFact{"fault_current", fault_current},
    WordFact{"tax", tax},
    WordFact{"approvals", approvals},
    WordFact{"quantity", quantity},
    WordFact{"room_percent", room_percent},
    WordFact{"backup_minutes", backup_minutes},
    WordFact{"feeds", feeds},
    WordFact{"estimate_class", estimate_class},
};

/// A signal counted in the box, of the request or of an assembly, that `wanted` picks.
template <class Wanted> bool on_points(const OfferView& view, const Wanted& wanted) {
    return std::any_of(
        view.estimate.points.begin(), view.estimate.points.end(),
        [&](const PointResult& point) { return point.box == view.box.name && wanted(point); });
}

bool points(const OfferView& view) {
    return on_points(view, [](const PointResult&) { return true; });
}

/// Spare was asked: by percent, or as least channels or modules.
bool spare(const OfferView& view) {
    const SpareRule& rule = view.estimate.request.spare;
    return on_points(view, [&](const PointResult& point) {
        return rule.percent.of(point.signal) > Percent() ||
               rule.minimum_channels.of(point.signal) > 0 ||
               rule.minimum_modules.of(point.signal) > 0;
    });
}

bool fed_assembly(const OfferView& view, const AskedAssembly& asked) {
    return std::any_of(
        view.rules.assemblies.begin(), view.rules.assemblies.end(), [&](const AssemblyRow& row) {
            const Signal* signal = view.rules.find_signal(row.signal);
            return row.assembly == asked.name && row.fed_from_box && signal && signal->amps &&
                   signal->amps->number() > 0 && row.times(asked.quantity) > 0;
        });
}

/// The box feeds something outside it.
bool field_loads(const OfferView& view) {
    const Box& box = view.box;
    const auto fed = [](const PointLine& line) {
        return line.fed_from_box && line.amps > 0 && line.count > 0;
    };
    const auto outside = [](const Equipment& each) {
        return each.where == "outside" && each.amps_24v.value_or(0) > 0 && each.quantity > 0;
    };
    return std::any_of(box.points.begin(), box.points.end(), fed) ||
           std::any_of(box.equipment.begin(), box.equipment.end(), outside) ||
           std::any_of(box.assemblies.begin(), box.assemblies.end(),
                       [&](const AskedAssembly& asked) { return fed_assembly(view, asked); });
}

bool safety(const OfferView& view) {
    return on_points(view, [&](const PointResult& point) {
        const Signal* signal = view.rules.find_signal(point.signal);
        return point.used > 0 && signal && signal->work_class == "safety";
    });
}

/// A line of the bill of this box that `wanted` picks.
template <class Wanted> bool on_bill(const OfferView& view, const Wanted& wanted) {
    return std::any_of(view.estimate.bill.begin(), view.estimate.bill.end(),
                       [&](const BillLine& line) {
                           return (line.box.empty() || line.box == view.box.name) && wanted(line);
                       });
}

bool glands(const OfferView& view) {
    return on_bill(view, [&](const BillLine& line) {
        const Part* part = view.book.find(line.part);
        return part && part->function.starts_with("gland");
    });
}

bool power_circuits(const OfferView& view) {
    return view.result.incoming && view.result.incoming->device.value > 0;
}

bool rating(const OfferView& view) {
    return view.result.short_circuit && view.result.short_circuit->stated_ka;
}

/// A Type and an IP code in one job: asked, or marked on an enclosure offered.
bool both_marks(const OfferView& view) {
    bool type = false, ip = false;
    const auto look = [&](const std::string& mark) {
        type = type || mark.find("Type") != std::string::npos;
        ip = ip || mark.find("IP") != std::string::npos;
    };
    look(view.box.site.protection);
    for (const EnclosureResult& each : view.result.enclosures)
        if (const Part* part = view.book.find(each.part)) {
            look(part->type_mark);
            look(part->ip_mark);
        }
    return type && ip;
}

bool network(const OfferView& view) {
    return view.box.work.network_devices > 0 ||
           on_bill(view, [](const BillLine& line) { return line.role == "network"; });
}

bool delivery(const OfferView& view) { return view.estimate.delivery_weeks.has_value(); }

bool old_prices(const OfferView& view) { return offer_value(view, "old_lines") != "0"; }

bool options(const OfferView& view) {
    const Node* node = at_pointer(view.estimate.request.filled, "/commercial/options");
    return node && !node->items.empty();
}

bool client_parts(const OfferView& view) {
    return on_bill(view, [](const BillLine& line) { return line.role == "free_issue"; });
}

bool demo_prices(const OfferView& view) { return view.estimate.demo_data; }

struct Has {
    std::string_view key;
    bool (*of)(const OfferView&);
};
constexpr auto presences = std::array{
    Has{"has.points", points},
    Has{"has.spare", spare},
    Has{"has.field_loads", field_loads},
    Has{"has.safety", safety},
    Has{"has.glands", glands},
    Has{"has.power_circuits", power_circuits},
    Has{"has.rating", rating},
    Has{"has.both_marks", both_marks},
    Has{"has.network", network},
    Has{"has.delivery", delivery},
    Has{"has.old_prices", old_prices},
    Has{"has.options", options},
    Has{"has.client_parts", client_parts},
    Has{"has.demo_prices", demo_prices},
};

const char* yes_or_no(bool yes) { return yes ? "yes" : "no"; }

} // namespace

std::string offer_fact(const OfferView& view, std::string_view key) {
    if (key.starts_with(scope_prefix)) return scope_fact(view, key.substr(scope_prefix.size()));
    if (key.starts_with(circumstance_prefix))
        return yes_or_no(
            has_circumstance(view.estimate.request, key.substr(circumstance_prefix.size())));
    for (const WordFact& fact : word_facts)
        if (fact.key == key) return fact.of(view);
    for (const Has& fact : presences)
        if (fact.key == key) return yes_or_no(fact.of(view));
    return {};
}

} // namespace backplate
