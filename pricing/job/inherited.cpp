#include "pricing/job/inherited.h"

#include <algorithm>
#include <array>
#include <map>

#include "pricing/request/node_values.h"

namespace backplate {
namespace {

constexpr auto of_the_other_job =
    std::array<std::string_view, 3>{"date", "due", "enquiry"}; ///< members of `job`
constexpr auto name_keys = std::array<std::string_view, 5>{"id", "name", "signal", "part", "text"};
/// Values that come whole: an entry of a client's list is one value.
constexpr auto whole_keys = std::array<std::string_view, 2>{"list", "origin"};

template <std::size_t count>
bool is_one_of(std::string_view word, const std::array<std::string_view, count>& words) {
    return std::ranges::find(words, word) != words.end();
}

/// A step of a JSON pointer, RFC 6901.
std::string escaped(std::string_view step) {
    std::string out;
    for (const char c : step) out += c == '~' ? "~0" : c == '/' ? "~1" : std::string(1, c);
    return out;
}

std::string place_text(std::size_t place) {
    return steps_text(static_cast<std::int64_t>(place), 0);
}

/// The group of the request that a field stands in, of a box its own group: "/job",
/// "/boxes/0/points".
std::string place_of(const std::string& field) {
    const int steps = field.starts_with("/boxes/") ? 3 : 1;
    std::size_t end = 0;
    for (int step = 0; step < steps && end != std::string::npos; ++step)
        end = field.find('/', end + 1);
    return field.substr(0, end);
}

/// What names an entry of a list of objects.
std::string name_of(const Node& entry, std::size_t place) {
    for (const auto key : name_keys)
        if (const Node* name = entry.find(key); name && name->is(Node::Kind::text))
            return name->text;
    return place_text(place);
}

bool is_list_of_objects(const Node& node) {
    return node.is(Node::Kind::list) && !node.items.empty() &&
           std::ranges::all_of(node.items,
                               [](const Node& item) { return item.is(Node::Kind::object); });
}

/// The steps that the entries of a list of objects bear in a field.
std::vector<std::string> entry_steps(const std::string& field, const Node& list) {
    std::vector<std::string> steps;
    for (std::size_t i = 0; i < list.items.size(); ++i) {
        const std::string name =
            field == "/boxes" ? place_text(i) : escaped(name_of(list.items[i], i));
        std::string own = name;
        for (int count = 2; std::ranges::find(steps, own) != steps.end(); ++count)
            own = name + "#" + steps_text(count, 0);
        steps.push_back(std::move(own));
    }
    return steps;
}

class Values {
public:
    void add(const std::string& field, const Node& node) {
        if (node.is(Node::Kind::object) && !node.members.empty()) {
            for (const Member& member : node.members) {
                const std::string below = field + "/" + escaped(member.key);
                if (is_one_of(member.key, whole_keys))
                    values_.push_back({below, json_line(member.value)});
                else
                    add(below, member.value);
            }
        } else if (is_list_of_objects(node)) {
            add_entries(field, node);
        } else {
            values_.push_back({field, json_line(node)});
        }
    }
    /// An empty group that is stated is the same question.
    void ask(const std::string& field) {
        std::erase_if(values_, [&](const auto& value) { return value.field == field; });
        values_.push_back({field, ""});
    }
    std::vector<InheritedValue> take() {
        std::ranges::stable_sort(values_, {}, &InheritedValue::field);
        return std::move(values_);
    }

private:
    void add_entries(const std::string& field, const Node& list) {
        const std::vector<std::string> steps = entry_steps(field, list);
        for (std::size_t i = 0; i < list.items.size(); ++i)
            add(field + "/" + steps[i], list.items[i]);
    }
    std::vector<InheritedValue> values_;
};

} // namespace

std::string pointer_of(const Node& request, const std::string& field) {
    std::string pointer;
    std::string passed;
    const Node* node = &request;
    for (std::size_t at = 1; node && at <= field.size();) {
        const std::size_t end = std::min(field.find('/', at), field.size());
        std::string step = field.substr(at, end - at);
        at = end + 1;
        if (is_list_of_objects(*node)) {
            const auto steps = entry_steps(passed, *node);
            const auto found = std::ranges::find(steps, step);
            if (found == steps.end()) break;
            passed += "/" + step;
            step = place_text(static_cast<std::size_t>(found - steps.begin()));
        } else {
            passed += "/" + step;
        }
        pointer += "/" + step;
        node = at_pointer(request, pointer);
    }
    return pointer;
}

Inherited inherited_from(int job, const std::vector<InheritedValue>& unconfirmed) {
    std::map<std::string, std::size_t> counts;
    for (const InheritedValue& value : unconfirmed) ++counts[place_of(value.field)];
    Inherited inherited{job, static_cast<int>(unconfirmed.size())};
    for (const auto& [place, count] : counts)
        inherited.places +=
            (inherited.places.empty() ? "" : ", ") + place + " (" + place_text(count) + ")";
    return inherited;
}

Node template_request(const Node& request) {
    Node taken = request;
    if (Node* job = taken.find("job"); job && job->is(Node::Kind::object)) {
        for (const auto key : of_the_other_job) job->erase(key);
        if (job->members.empty()) taken.erase("job");
    }
    return taken;
}

std::vector<InheritedValue> inherited_values(const Node& request) {
    Values values;
    for (const Member& member : request.members)
        if (member.key != "format") values.add("/" + escaped(member.key), member.value);
    values.ask("/spare");
    values.ask("/commercial");
    const Node* boxes = request.find("boxes");
    const std::size_t count = boxes ? boxes->items.size() : 0;
    for (std::size_t i = 0; i < count; ++i) values.ask("/boxes/" + place_text(i) + "/site");
    return values.take();
}

} // namespace backplate
