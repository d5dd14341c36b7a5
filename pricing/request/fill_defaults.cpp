#include "pricing/request/fill_defaults.h"

#include "pricing/request/check_values.h"
#include "pricing/request/request_keys.h"

namespace backplate {
namespace {

bool left_open(const Node* value, const DefaultRow& row) {
    if (!value) return true;
    return row.type == "word" && value->is(Node::Kind::text) && value->text == "not_stated";
}

bool is_map(const DefaultRow& row) {
    return row.type == "percent_map" || row.type == "integer_map";
}

/// A bare number means the default of all signals.
void open_map(Node& node) {
    if (node.is(Node::Kind::object)) return;
    Node map = Node::make_object();
    if (!node.is(Node::Kind::null)) map.member("default") = std::move(node);
    node = std::move(map);
}

class Filling {
public:
    Filling(const DefaultValues& defaults, std::vector<FilledValue>& filled)
        : defaults_(defaults), filled_(filled) {}

    void fill_row(Node& request, const DefaultRow& row) {
        row_ = &row;
        steps_ = key_steps(row.key);
        box_ = 0;
        fill(request, 0, 0, "");
    }

private:
    void fill(Node& owner, std::size_t depth, std::size_t index, const std::string& pointer);
    void fill_last(Node& owner, const std::string& name, std::size_t index,
                   const std::string& pointer);
    void fill_map(Node& owner, const std::string& name, const std::string& pointer);

    const DefaultValues& defaults_;
    std::vector<FilledValue>& filled_;
    const DefaultRow* row_ = nullptr;
    std::vector<KeyStep> steps_;
    std::size_t box_ = 0;
};

void Filling::fill(Node& owner, std::size_t depth, std::size_t index, const std::string& pointer) {
    const KeyStep& step = steps_[depth];
    const std::string place = step_down(pointer, step.name);
    if (depth + 1 == steps_.size()) return fill_last(owner, step.name, index, place);
    Node* below = owner.find(step.name);
    if (!below) return;
    if (below->is(Node::Kind::object)) fill(*below, depth + 1, index, place);
    for (std::size_t i = 0; i < below->items.size(); ++i) {
        if (depth == 0) box_ = i;
        fill(below->items[i], depth + 1, i, step_down(place, i));
    }
}

void Filling::fill_last(Node& owner, const std::string& name, std::size_t index,
                        const std::string& pointer) {
    if (name == "{signal}" || !owner.is(Node::Kind::object)) return;
    if (is_map(*row_)) return fill_map(owner, name, pointer);
    if (!left_open(owner.find(name), *row_)) return;
    if (auto value = defaults_.value(*row_, owner, index)) {
        owner.member(name) = *std::move(value);
        filled_.push_back({row_, pointer, box_});
    }
}

/// The default of a whole map is a bare number too; a map that is sent without one takes the row of
/// its member `default`.
void Filling::fill_map(Node& owner, const std::string& name, const std::string& pointer) {
    if (!owner.find(name))
        if (auto value = defaults_.value(*row_, owner, 0)) {
            owner.member(name) = *std::move(value);
            filled_.push_back({row_, step_down(pointer, "default"), box_});
        }
    open_map(owner.member(name));
}

bool looks_at_others(const DefaultRow& row) { return row.key.ends_with(".fed_from_box"); }

/// What a choice of its own holds instead of a word is not filled in beside the word.
bool inside_alternative(const DefaultRow& row, const RuleBook& rules) {
    for (const DefaultRow& other : rules.defaults)
        if (other.type == "word_or_object" && row.key.starts_with(other.key + ".")) return true;
    return false;
}

} // namespace

std::vector<FilledValue> fill_defaults(Node& request, const RuleBook& rules,
                                       const DefaultValues& defaults) {
    std::vector<FilledValue> filled;
    Filling filling(defaults, filled);
    for (const bool late : {false, true})
        for (const DefaultRow& row : rules.defaults)
            if (looks_at_others(row) == late && !inside_alternative(row, rules))
                filling.fill_row(request, row);
    return filled;
}

} // namespace backplate
