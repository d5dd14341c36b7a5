#include "pricing/request/contradictions.h"

#include <algorithm>
#include <array>
#include <map>

#include "pricing/request/check_values.h"
#include "pricing/request/node_values.h"

namespace backplate {
namespace {

/// The member `key` unless it is absent or null.
const Node* stated(const Node& owner, std::string_view key) {
    const Node* node = owner.find(key);
    return node && !node->is(Node::Kind::null) ? node : nullptr;
}

std::string text_at(const Node& owner, std::string_view key) {
    const Node* node = stated(owner, key);
    return node && node->is(Node::Kind::text) ? node->text : std::string();
}

const std::vector<Node>& items_at(const Node& owner, std::string_view key) {
    const Node* node = owner.find(key);
    return node ? node->items : owner.items; // an object has no items
}

class Contradictions {
public:
    Contradictions(const Words& words, std::vector<RequestFault>& faults)
        : words_(words), faults_(faults) {}

    void check(const Node& request);

private:
    void check_spare(const Node& spare);
    void check_spare_of_job(const Node& spare);
    void check_commercial(const Node& commercial);
    void check_names(const Node& request);
    void check_systems(const std::vector<Node>& boxes);
    void check_repeats(const std::vector<Node>& boxes);
    void check_box(const Node& box, const std::string& pointer);
    void check_ids(const Node& box, const std::string& pointer);
    void check_line(const Node& line, const std::string& pointer);
    void check_supply(const Node& supply, const std::string& pointer);
    void check_equipment(const Node& equipment, const std::string& pointer);
    void check_other_voltage(const Node& equipment, const std::string& pointer);
    void check_enclosure(const Node& enclosure, const std::string& pointer);
    void fault(const std::string& where, std::string text) {
        faults_.push_back({where, std::move(text)});
    }

    const Words& words_;
    std::vector<RequestFault>& faults_;
};

void Contradictions::check(const Node& request) {
    if (const Node* spare = stated(request, "spare")) check_spare(*spare);
    if (const Node* commercial = stated(request, "commercial")) check_commercial(*commercial);
    check_names(request);
    const auto& boxes = items_at(request, "boxes");
    check_systems(boxes);
    check_repeats(boxes);
    for (std::size_t i = 0; i < boxes.size(); ++i) check_box(boxes[i], step_down("/boxes", i));
}

/// Spare modules belong to a box: over the job only channels are counted.
void Contradictions::check_spare_of_job(const Node& spare) {
    const Node* modules = stated(spare, "minimum_modules");
    if (text_at(spare, "scope") != "job" || !modules) return;
    const auto check = [&](const Node& value, const std::string& pointer) {
        if (number_value(value).value_or(0) > 0)
            fault(pointer, found_text(value) + ", expected 0 where spare.scope is job");
    };
    check(*modules, "/spare/minimum_modules");
    for (const Member& each : modules->members)
        check(each.value, step_down("/spare/minimum_modules", each.key));
}

/// Spare of the installed channels: all of them spare would leave none to use.
void Contradictions::check_spare(const Node& spare) {
    check_spare_of_job(spare);
    const Node* percent = stated(spare, "percent");
    if (text_at(spare, "basis") != "of_installed" || !percent) return;
    const auto check = [&](const Node& value, const std::string& pointer) {
        if (number_value(value).value_or(0) >= 100)
            fault(pointer,
                  found_text(value) + ", expected below 100 where spare.basis is of_installed");
    };
    check(*percent, "/spare/percent");
    for (const Member& each : percent->members)
        check(each.value, step_down("/spare/percent", each.key));
}

void Contradictions::check_commercial(const Node& commercial) {
    if (stated(commercial, "margin_percent") && stated(commercial, "markup_percent"))
        fault("/commercial/markup_percent",
              "stands beside margin_percent, expected only one of the two");
    const auto& options = items_at(commercial, "options");
    for (std::size_t i = 0; i < options.size(); ++i) {
        const Node* change = stated(options[i], "change");
        if (change && change->is(Node::Kind::object) && change->members.empty())
            fault(step_down("/commercial/options", i) + "/change",
                  "is empty, expected what the option changes");
    }
}

/// A name that is left out counts as CP1, CP2 … in order.
std::string name_of(const std::vector<Node>& boxes, std::size_t index) {
    if (boxes[index].find("name")) return text_at(boxes[index], "name");
    return "CP" + steps_text(static_cast<std::int64_t>(index) + 1, 0);
}

/// Its controller is in another box, as far as its words say.
bool is_led(const Node& box) {
    const std::string word = text_at(box, "controlled_by");
    return !word.empty() && word != "own" && word != "none";
}

/// Place of the box of this name; the size of the list: none has it.
std::size_t place_of(const std::vector<Node>& boxes, const std::string& name) {
    std::size_t place = 0;
    while (place < boxes.size() && name_of(boxes, place) != name) ++place;
    return place;
}

void Contradictions::check_names(const Node& request) {
    std::map<std::string, std::string> first_place;
    const auto& boxes = items_at(request, "boxes");
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const std::string pointer = step_down("/boxes", i) + "/name";
        const std::string name = name_of(boxes, i);
        const auto [place, fresh] = first_place.emplace(name, pointer);
        if (name.empty() || name == "own" || name == "none")
            fault(pointer, "'" + name + "', expected a name other than own and none");
        else if (!fresh)
            fault(pointer, "'" + name + "' is also the name at " + place->second);
    }
}

/// A controlled box needs a box with a controller of its own, and has none itself.
void Contradictions::check_systems(const std::vector<Node>& boxes) {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const std::string pointer = step_down("/boxes", i),
                          word = text_at(boxes[i], "controlled_by");
        const Node* pair = at_pointer(boxes[i], "/choices/redundant_controller");
        if ((is_led(boxes[i]) || word == "none") && pair && pair->flag)
            fault(pointer + "/choices/redundant_controller",
                  "in a box without a controller of its own, expected false");
        if (!is_led(boxes[i])) continue;
        const std::size_t place = place_of(boxes, word);
        if (place == i)
            fault(pointer + "/controlled_by", "'" + word + "' is the box itself, expected own");
        else if (place < boxes.size() &&
                 (is_led(boxes[place]) || text_at(boxes[place], "controlled_by") == "none"))
            fault(pointer + "/controlled_by",
                  "'" + word + "' has no controller of its own, expected a box that has one");
    }
}

/// One-off hours are those of a box that brings its own.
void Contradictions::check_repeats(const std::vector<Node>& boxes) {
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const Node* node = at_pointer(boxes[i], "/work/repeat_of");
        if (!node || !node->is(Node::Kind::text)) continue;
        const std::string pointer = step_down("/boxes", i) + "/work/repeat_of";
        const std::size_t place = place_of(boxes, node->text);
        if (place == boxes.size())
            fault(pointer, "'" + node->text + "' is no box of this job, expected the name of one");
        else if (place == i)
            fault(pointer, "'" + node->text + "' is the box itself, expected another one");
        else if (const Node* other = at_pointer(boxes[place], "/work/repeat_of");
                 other && other->is(Node::Kind::text))
            fault(pointer, "'" + node->text + "' repeats a box itself, expected one that does not");
    }
}

void Contradictions::check_box(const Node& box, const std::string& pointer) {
    const Node* points = stated(box, "points");
    const bool equipment_only = text_at(box, "controlled_by") == "none";
    const bool assemblies = !items_at(box, "assemblies").empty();
    if (equipment_only && assemblies)
        fault(pointer + "/assemblies", "in a box controlled by none, expected an empty list");
    if (points && points->is(Node::Kind::list) && points->items.empty() != equipment_only &&
        (equipment_only || !assemblies))
        fault(pointer + "/points", equipment_only
                                       ? "in a box controlled by none, expected an empty list"
                                       : "is empty, expected at least one line of points");
    check_ids(box, pointer);
    const auto& lines = items_at(box, "points");
    for (std::size_t i = 0; i < lines.size(); ++i)
        check_line(lines[i], step_down(pointer + "/points", i));
    const auto& equipment = items_at(box, "equipment");
    for (std::size_t i = 0; i < equipment.size(); ++i)
        check_equipment(equipment[i], step_down(pointer + "/equipment", i));
    if (const Node* supply = at_pointer(box, "/site/supply"))
        check_supply(*supply, pointer + "/site/supply");
    if (const Node* enclosure = at_pointer(box, "/choices/enclosure"))
        check_enclosure(*enclosure, pointer + "/choices/enclosure");
}

void Contradictions::check_ids(const Node& box, const std::string& pointer) {
    std::map<std::string, std::string> first_place;
    const auto& lines = items_at(box, "points");
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const std::string id = text_at(lines[i], "id");
        const std::string place = step_down(pointer + "/points", i) + "/id";
        const auto [other, fresh] = first_place.emplace(id, place);
        if (!id.empty() && !fresh) fault(place, "'" + id + "' is also the id at " + other->second);
    }
}

void Contradictions::check_line(const Node& line, const std::string& pointer) {
    const Node* list = stated(line, "list");
    const auto count = number_value(line.find("count") ? *line.find("count") : Node());
    if (list && list->is(Node::Kind::list) && count &&
        static_cast<double>(list->items.size()) != *count)
        fault(pointer + "/list",
              steps_text(static_cast<std::int64_t>(list->items.size()), 0) +
                  " entries, expected as many as count says: " + json_line(*line.find("count")));
    const std::string signal = text_at(line, "signal");
    const Node* needs = stated(line, "needs");
    if (!needs) return;
    for (const Member& need : needs->members)
        if (need.value.flag &&
            words_.fit("boxes[].points[].needs", need.key, signal) == Words::Fit::other_signal)
            fault(step_down(pointer + "/needs", need.key), "does not go with " + signal);
}

void Contradictions::check_supply(const Node& supply, const std::string& pointer) {
    const Node* phases_node = stated(supply, "phases");
    const Node* hz_node = stated(supply, "hz");
    const auto phases = number_value(phases_node ? *phases_node : Node());
    const auto hz = number_value(hz_node ? *hz_node : Node());
    if (phases == 2.0) fault(pointer + "/phases", "2, expected 1 or 3");
    if (phases == 3.0 && hz == 0.0)
        fault(pointer + "/phases", "3 phases with hz 0, expected 1 for direct current");
}

void Contradictions::check_equipment(const Node& equipment, const std::string& pointer) {
    const bool part = !text_at(equipment, "part").empty();
    const bool text = !text_at(equipment, "text").empty();
    if (part && text) fault(pointer, "holds both part and text, expected one of them");
    if (!part && !text) fault(pointer + "/text", "is missing, expected a text or a part");
    check_other_voltage(equipment, pointer);
}

/// One of the three alone says nothing; what it lacks is missing, so that they may be typed one
/// after the other.
void Contradictions::check_other_voltage(const Node& equipment, const std::string& pointer) {
    constexpr auto together = std::array{"volts", "current", "amps"};
    const auto given = std::ranges::count_if(
        together, [&](const char* key) { return stated(equipment, key) != nullptr; });
    for (const char* key : together)
        if (given > 0 && !stated(equipment, key))
            fault(pointer + "/" + key, "is missing, expected volts, current and amps together");
    const Node* volts = stated(equipment, "volts");
    if (volts && text_at(equipment, "current") == "dc" && number_value(*volts) == 24.0)
        fault(pointer + "/volts", "24 V DC, expected its current under amps_24v");
}

void Contradictions::check_enclosure(const Node& enclosure, const std::string& pointer) {
    if (!enclosure.is(Node::Kind::object)) return;
    const bool part = stated(enclosure, "part");
    if (part == static_cast<bool>(stated(enclosure, "existing_plate_mm")))
        fault(pointer, "expected a word, or an object with one of part and existing_plate_mm");
}

} // namespace

void check_contradictions(const Node& sent, const Words& words, std::vector<RequestFault>& faults) {
    Contradictions(words, faults).check(sent);
}

} // namespace backplate
