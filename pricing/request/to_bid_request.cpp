#include "pricing/request/to_bid_request.h"

#include <span>

#include "pricing/request/node_values.h"

namespace backplate {
namespace {

/// Reads the members of one object; what is null or absent is nothing.
class Members {
public:
    explicit Members(const Node* node) : node_(node) {}

    const Node* find(std::string_view key) const {
        const Node* node = node_ ? node_->find(key) : nullptr;
        return node && !node->is(Node::Kind::null) ? node : nullptr;
    }
    Members below(std::string_view key) const { return Members(find(key)); }
    std::string text(std::string_view key) const {
        const Node* node = find(key);
        return node ? node->text : std::string();
    }
    bool flag(std::string_view key) const {
        const Node* node = find(key);
        return node && node->flag;
    }
    std::optional<double> number(std::string_view key) const {
        const Node* node = find(key);
        return node ? number_value(*node) : std::nullopt;
    }
    double number_or_0(std::string_view key) const { return number(key).value_or(0); }
    std::optional<std::int64_t> steps(std::string_view key, int places) const {
        const Node* node = find(key);
        const auto exact = node ? exact_value(*node) : std::nullopt;
        return exact ? to_steps(*exact, places) : std::nullopt;
    }
    std::optional<int> whole(std::string_view key) const {
        const auto value = steps(key, 0);
        return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
    }
    int whole_or_0(std::string_view key) const { return whole(key).value_or(0); }
    std::optional<Percent> percent(std::string_view key) const {
        const auto value = steps(key, Percent::places);
        return value ? std::optional(Percent::of_steps(*value)) : std::nullopt;
    }
    std::optional<Hours> hours(std::string_view key) const {
        const auto value = steps(key, Hours::places);
        return value ? std::optional(Hours::of_steps(*value)) : std::nullopt;
    }
    std::span<const Node> items(std::string_view key) const {
        const Node* list = find(key);
        return list ? std::span<const Node>(list->items) : std::span<const Node>();
    }
    std::vector<std::string> texts(std::string_view key) const {
        std::vector<std::string> result;
        for (const Node& item : items(key)) result.push_back(item.text);
        return result;
    }
    std::span<const Member> all() const {
        return node_ ? std::span<const Member>(node_->members) : std::span<const Member>();
    }

private:
    const Node* node_;
};

template <class Value>
BySignal<Value> by_signal(const Members& map,
                          std::optional<Value> (Members::*read)(std::string_view) const) {
    BySignal<Value> result;
    for (const Member& member : map.all()) {
        const std::optional<Value> value = (map.*read)(member.key);
        if (!value) continue;
        if (member.key == "default")
            result.fallback = *value;
        else
            result.exceptions[member.key] = *value;
    }
    return result;
}

SpareKind spare_kind(const std::string& word) {
    if (word == "wired") return SpareKind::wired;
    if (word == "installed") return SpareKind::installed;
    return word == "slot" ? SpareKind::slot : SpareKind::unstated;
}

SpareRule spare_of(const Members& spare) {
    SpareRule rule;
    rule.basis =
        spare.text("basis") == "of_installed" ? SpareBasis::of_installed : SpareBasis::of_used;
    rule.percent = by_signal(spare.below("percent"), &Members::percent);
    rule.minimum_channels = by_signal(spare.below("minimum_channels"), &Members::whole);
    rule.minimum_modules = by_signal(spare.below("minimum_modules"), &Members::whole);
    rule.kind = spare_kind(spare.text("kind"));
    rule.over_job = spare.text("scope") == "job";
    return rule;
}

ScopeOfSupply scope_of(const Members& scope) {
    ScopeOfSupply result;
    result.drawings = scope.text("drawings");
    result.software = scope.text("software");
    result.works_test = scope.text("works_test");
    result.commissioning = scope.text("commissioning");
    result.packing = scope.text("packing");
    result.transport = scope.text("transport");
    result.documents = scope.text("documents");
    result.languages = scope.whole("languages").value_or(1);
    result.witness_days = scope.number_or_0("witness_days");
    result.site_days = scope.number_or_0("site_days");
    return result;
}

PointLine line_of(const Members& line, std::size_t index) {
    PointLine result;
    result.signal = line.text("signal");
    result.count = line.whole_or_0("count");
    result.wiring = line.text("wiring");
    result.amps = line.number_or_0("amps");
    result.volts = line.number("volts");
    result.on_together = line.percent("on_together_percent").value_or(Percent::whole(100));
    result.fed_from_box = line.flag("fed_from_box");
    if (line.text("via") != "direct") result.via = line.text("via");
    result.isolated = line.below("needs").flag("isolated");
    result.hart = line.below("needs").flag("hart");
    result.id = line.text("id");
    result.note = line.text("note");
    for (const Node& item : line.items("list")) {
        const Members point(&item);
        result.list.push_back({point.text("tag"), point.text("text"), point.text("device")});
    }
    result.index = index;
    return result;
}

Equipment equipment_of(const Members& equipment, std::size_t index) {
    Equipment result;
    result.part = equipment.text("part");
    result.text = equipment.text("text");
    result.quantity = equipment.whole("quantity").value_or(1);
    result.where = equipment.text("where");
    result.watts = equipment.number("watts");
    result.amps_24v = equipment.number("amps_24v");
    result.volts = equipment.number("volts");
    result.amps = equipment.number("amps");
    result.current = equipment.text("current");
    result.width_mm = equipment.number("width_mm");
    result.height_mm = equipment.number("height_mm");
    result.depth_mm = equipment.number("depth_mm");
    if (equipment.find("price")) result.price = Money::parse(equipment.text("price"));
    result.hours = equipment.hours("hours");
    result.index = index;
    return result;
}

Site site_of(const Members& site) {
    Site result;
    const auto ambient = site.items("ambient_c");
    if (ambient.size() == 2) {
        result.ambient_low_c = number_value(ambient[0]).value_or(result.ambient_low_c);
        result.ambient_high_c = number_value(ambient[1]).value_or(result.ambient_high_c);
    }
    result.humidity_percent = site.number("humidity_percent").value_or(result.humidity_percent);
    result.altitude_m = site.number("altitude_m").value_or(result.altitude_m);
    result.place = site.text("place");
    result.dust = site.text("dust");
    result.corrosion = site.text("corrosion");
    result.protection = site.text("protection");
    result.mounting = site.text("mounting");
    result.approvals = site.texts("approvals");
    const Members most = site.below("max_mm");
    result.max_width_mm = most.number("width");
    result.max_height_mm = most.number("height");
    result.max_depth_mm = most.number("depth");
    const Members supply = site.below("supply");
    result.volts = supply.number("volts").value_or(result.volts);
    result.phases = supply.whole("phases").value_or(1);
    result.hz = supply.number("hz").value_or(result.hz);
    result.neutral = supply.flag("neutral");
    result.feeds = supply.whole("feeds").value_or(1);
    result.fault_current_ka = site.number("fault_current_ka");
    return result;
}

void read_enclosure(const Members& choices, Choices& result) {
    const std::string word = choices.text("enclosure");
    const Members plate = choices.below("enclosure").below("existing_plate_mm");
    result.enclosure_part = choices.below("enclosure").text("part");
    result.plate_width_mm = plate.number_or_0("width");
    result.plate_height_mm = plate.number_or_0("height");
    if (word == "by_client") result.enclosure = EnclosureChoice::by_client;
    if (word == "plate_only") result.enclosure = EnclosureChoice::plate_only;
    if (!result.enclosure_part.empty()) result.enclosure = EnclosureChoice::part;
    if (result.plate_width_mm > 0) result.enclosure = EnclosureChoice::existing_plate;
}

Choices choices_of(const Members& choices) {
    Choices result;
    result.platforms = choices.texts("platforms");
    result.exclude = choices.texts("exclude");
    for (const Node& item : choices.items("keep")) {
        const Members kept(&item);
        result.keep.push_back({kept.text("part"), kept.whole("quantity").value_or(1)});
    }
    for (const Node& item : choices.items("replace"))
        result.replace.push_back({Members(&item).text("part"), Members(&item).text("by")});
    result.prefer_makers = choices.texts("prefer_makers");
    result.in_stock_only = choices.flag("in_stock_only");
    result.redundant_supply = choices.flag("redundant_supply");
    result.redundant_controller = choices.flag("redundant_controller");
    result.separate_output_supply = choices.flag("separate_output_supply");
    result.backup_minutes = choices.number_or_0("backup_minutes");
    result.room = choices.percent("room_percent").value_or(Percent());
    result.future_load = choices.percent("future_load_percent").value_or(Percent());
    result.inside_max_c = choices.number("inside_max_c");
    result.cooling = choices.text("cooling");
    result.material = choices.text("material");
    read_enclosure(choices, result);
    return result;
}

Box box_of(const Members& box, std::size_t index) {
    Box result;
    result.name = box.text("name");
    result.per_system = box.whole("quantity").value_or(1);
    result.quantity = result.per_system;
    const Members link = box.below("link");
    result.link = {link.text("medium"), link.number_or_0("length_m")};
    for (const Node& line : box.items("points"))
        result.points.push_back(line_of(Members(&line), result.points.size()));
    const Members work = box.below("work");
    result.work = {work.whole_or_0("screens"), work.whole_or_0("soft_points"),
                   work.whole_or_0("network_devices"), work.whole_or_0("loops"),
                   work.text("repeat_of")};
    for (const Node& item : box.items("assemblies")) {
        const Members asked(&item);
        result.assemblies.push_back(
            {asked.text("name"), asked.whole("quantity").value_or(1), result.assemblies.size()});
    }
    result.site = site_of(box.below("site"));
    for (const Node& equipment : box.items("equipment"))
        result.equipment.push_back(equipment_of(Members(&equipment), result.equipment.size()));
    result.choices = choices_of(box.below("choices"));
    result.index = index;
    return result;
}

/// Who controls whom, and how often a controlled box stands in the job.
void join_systems(const Members& root, std::vector<Box>& boxes) {
    for (const Node& node : root.items("boxes")) {
        Box& box = boxes[static_cast<std::size_t>(&node - root.items("boxes").data())];
        const std::string word = Members(&node).text("controlled_by");
        box.controller_box = box.index;
        if (word == "none") box.controlled_by = ControlledBy::none;
        for (const Box& other : boxes) {
            if (word != other.name || word == "own" || word == "none") continue;
            box.controlled_by = ControlledBy::other_box;
            box.controller_box = other.index;
            box.quantity = box.per_system * other.per_system;
        }
    }
}

Commercial commercial_of(const Members& commercial) {
    Commercial result;
    result.margin = commercial.percent("margin_percent");
    result.markup = commercial.percent("markup_percent");
    result.concession = commercial.percent("concession_percent").value_or(Percent());
    result.contingency = commercial.percent("contingency_percent").value_or(Percent());
    result.tax = commercial.percent("tax_percent");
    if (commercial.find("target_price"))
        result.target_price = Money::parse(commercial.text("target_price"));
    result.delivery_term = commercial.text("delivery_term");
    return result;
}

void read_job(const Members& job, BidRequest& request) {
    request.title = job.text("title");
    request.client = job.text("client");
    request.enquiry = job.text("enquiry");
    request.prepared_by = job.text("prepared_by");
    request.date = Date::parse(job.text("date")).value_or(Date());
    request.due = Date::parse(job.text("due"));
    request.valid_days = job.whole("valid_days").value_or(request.valid_days);
    request.deliver_weeks = job.whole("deliver_weeks");
    request.currency = job.text("currency");
    request.north_america = job.text("practice") == "north_america";
    request.inch = job.text("units") == "inch";
    request.estimate_class = job.whole("estimate_class").value_or(request.estimate_class);
}

} // namespace

BidRequest to_bid_request(Node filled) {
    BidRequest request;
    request.filled = std::move(filled);
    const Members root(&request.filled);
    read_job(root.below("job"), request);
    request.spare = spare_of(root.below("spare"));
    request.scope = scope_of(root.below("scope"));
    for (const Node& box : root.items("boxes"))
        request.boxes.push_back(box_of(Members(&box), request.boxes.size()));
    join_systems(root, request.boxes);
    request.circumstances = root.texts("circumstances");
    request.commercial = commercial_of(root.below("commercial"));
    const auto seed = root.below("risk").steps("seed", 0);
    request.seed = static_cast<std::uint32_t>(seed.value_or(request.seed));
    return request;
}

} // namespace backplate
