#include <algorithm>
#include <array>

#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string whole(std::int64_t value) { return steps_text(value, 0); }

int highest_of(const BySignal<int>& figures) {
    int highest = figures.fallback;
    for (const auto& [signal, figure] : figures.exceptions) highest = std::max(highest, figure);
    return highest;
}

std::string minimum_text(const SpareRule& spare, const std::string& signal) {
    const int channels = spare.minimum_channels.of(signal);
    const int modules = spare.minimum_modules.of(signal);
    std::string text;
    if (channels > 0 || modules == 0) text = whole(channels) + " channels";
    if (modules > 0) text += (text.empty() ? "" : " or ") + whole(modules) + " modules";
    return text;
}

/// The first signal of the box that a minimum is stated for, else its first signal.
const SignalDemand& spare_example(const Demand& demand, const SpareRule& spare) {
    for (const SignalDemand& signal : demand.signals)
        if (spare.minimum_channels.of(signal.signal) > 0 ||
            spare.minimum_modules.of(signal.signal) > 0)
            return signal;
    return demand.signals.front();
}

void spare_finding(const BoxFacts& facts, FindingSink& sink) {
    const SpareRule& spare = facts.request->spare;
    const bool installed = spare.basis == SpareBasis::of_installed;
    const bool minimum =
        highest_of(spare.minimum_channels) > 0 || highest_of(spare.minimum_modules) > 0;
    if ((spare.stated && !installed && !minimum) || facts.demand.signals.empty()) return;
    const SignalDemand& shown = spare_example(facts.demand, spare);
    sink.add("SPARE_BASIS", "/spare",
             {{"percent", spare.percent.of(shown.signal).text()},
              {"basis", installed ? "of the installed channels" : "of the points used"},
              {"minimum", minimum_text(spare, shown.signal)},
              {"signal", shown.signal},
              {"required", whole(shown.required)},
              {"used", whole(shown.used)}},
             shown.signal + " in box " + facts.box->name);
}

void box_findings(const Box& box, FindingSink& sink) {
    const std::string at = box_path(box.index);
    std::int64_t points = 0;
    for (const PointLine& line : box.points) points += line.count;
    for (const AskedAssembly& assembly : box.assemblies) points += assembly.quantity;
    if (!box.points.empty() && points == 0)
        sink.add(
            "NO_POINTS", at + "/points",
            {{"box", box.name}, {"lines", whole(static_cast<std::int64_t>(box.points.size()))}});
}

/// Circumstances that say all by being named.
struct Named {
    const char *code, *circumstance;
};
constexpr auto named =
    std::array{Named{"HAZARD_AREA", "hazardous_area"}, Named{"TERMS", "unusual_terms"},
               Named{"SCOPE_MOVING", "scope_moving"}};

/// Choices that a person made in place of the engine.
std::string hand_choices(const Choices& choices) {
    std::string text;
    const auto add = [&](const char* name, std::size_t count) {
        if (count == 0) return;
        text += (text.empty() ? "" : ", ") + std::string(name);
        if (count > 1) text += " (" + whole(static_cast<std::int64_t>(count)) + ")";
    };
    add("platforms", choices.platforms.size());
    add("parts to keep", choices.keep.size());
    add("parts excluded", choices.exclude.size());
    add("parts replaced", choices.replace.size());
    add("preferred makers", choices.prefer_makers.size());
    add("parts in stock only", choices.in_stock_only ? 1 : 0);
    add("cooling", choices.cooling != "any" ? 1 : 0);
    add("material", choices.material != "any" ? 1 : 0);
    add("inside temperature", choices.inside_max_c ? 1 : 0);
    add("enclosure", choices.enclosure != EnclosureChoice::choose ? 1 : 0);
    return text;
}

void inherited_finding(const BidRequest& request, FindingSink& sink) {
    if (request.inherited && request.inherited->count > 0)
        sink.add("INHERITED_UNCONFIRMED", "/job",
                 {{"count", whole(request.inherited->count)},
                  {"job", whole(request.inherited->job)},
                  {"places", request.inherited->places}});
}

std::size_t options_asked(const BidRequest& request) {
    const Node* options = at_pointer(request.filled, "/commercial/options");
    return options ? options->items.size() : 0;
}

} // namespace

void request_findings(const Estimate& estimate, const std::vector<PanelChoice>& choices,
                      FindingSink& sink) {
    const BidRequest& request = estimate.request;
    inherited_finding(request, sink);
    for (const PanelChoice& choice : choices) spare_finding(choice.search->facts, sink);
    if (static_cast<double>(request.boxes.size()) > sink.limit("LOCATION_SPLIT"))
        sink.add("LOCATION_SPLIT", "/boxes",
                 {{"count", whole(static_cast<std::int64_t>(request.boxes.size()))}});
    for (const Box& box : request.boxes) {
        box_findings(box, sink);
        if (const std::string text = hand_choices(box.choices); !text.empty())
            sink.add("HAND_CHOICES", box_path(box.index) + "/choices",
                     {{"box", box.name}, {"choices", text}});
    }
    for (const Named& each : named)
        if (has_circumstance(request, each.circumstance)) sink.add(each.code, "/circumstances");
    const std::size_t options = options_asked(request);
    if (has_circumstance(request, "alternates") ||
        static_cast<double>(options) > sink.limit("ALTERNATE"))
        sink.add("ALTERNATE", "/commercial/options",
                 {{"count", whole(static_cast<std::int64_t>(options))}});
    if (has_circumstance(request, "second_supply"))
        sink.add("SECOND_SUPPLY", "/circumstances",
                 {{"volts", "A voltage besides 24"},
                  {"signal", "loads that the enquiry names"},
                  {"box", request.boxes.front().name}},
                 "loads that the enquiry names");
    if (request.due &&
        static_cast<double>(request.due->days - request.date.days) < sink.limit("DUE_SOON"))
        sink.add("DUE_SOON", "/job/due", {{"due", request.due->text()}});
    const auto assumptions = static_cast<std::int64_t>(request.assumptions.size());
    if (static_cast<double>(assumptions) > sink.limit("ASSUMPTIONS"))
        sink.add("ASSUMPTIONS", "#/assumptions", {{"count", whole(assumptions)}});
}

} // namespace backplate
