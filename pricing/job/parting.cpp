#include "pricing/job/parting.h"

#include <algorithm>
#include <numeric>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

std::string words_of(std::int64_t number) { return steps_text(number, 0); }

std::size_t index_of(int number) { return static_cast<std::size_t>(number); }

/// Counts of what is shared out: lines of points of the request, then assemblies.
std::vector<int> counts_of(const Box& box) {
    std::vector<int> counts;
    for (const PointLine& line : box.points)
        if (!line.of_assembly) counts.push_back(line.count);
    for (const AskedAssembly& each : box.assemblies) counts.push_back(each.quantity);
    return counts;
}

/// The parted box is the last to get what is left over: its equipment stands in it too.
std::vector<BoxShare> even_shares(const std::vector<int>& counts, int boxes) {
    std::vector<BoxShare> shares(index_of(boxes), BoxShare(counts.size()));
    int next = 1;
    for (std::size_t line = 0; line < counts.size(); ++line) {
        for (BoxShare& share : shares) share[line] = counts[line] / boxes;
        for (int left = counts[line] % boxes; left > 0; --left)
            ++shares[index_of(next++ % boxes)][line];
    }
    return shares;
}

std::vector<BoxShare> shares_together(const std::vector<int>& counts, int boxes) {
    std::vector<BoxShare> shares(index_of(boxes), BoxShare(counts.size()));
    const std::int64_t all = std::accumulate(counts.begin(), counts.end(), std::int64_t{0});
    std::int64_t begin = 0;
    for (std::size_t line = 0; line < counts.size(); ++line) {
        const std::int64_t end = begin + counts[line];
        for (int box = 0; box < boxes; ++box) {
            const std::int64_t from = std::max(begin, all * box / boxes);
            const std::int64_t to = std::min(end, all * (box + 1) / boxes);
            shares[index_of(box)][line] = static_cast<int>(std::max(to - from, std::int64_t{0}));
        }
        begin = end;
    }
    return shares;
}

/// The slice of a list of points that a box gets.
void keep_entries(Node& line, int first, int count) {
    Node* list = line.find("list");
    if (!list || !list->is(Node::Kind::list)) return;
    list->items = {list->items.begin() + first, list->items.begin() + first + count};
}

/// Writes of one box after the other what it gets of the lines and assemblies as they were sent.
class ShareWriter {
public:
    ShareWriter(const Box& box, const Node& sent, std::vector<BoxShare> shares)
        : box_(box), sent_(sent), shares_(std::move(shares)), given_(shares_.front().size()) {}

    void write(std::size_t part, Node& into) {
        const BoxShare& share = shares_[part];
        std::size_t place = 0;
        Node points = Node::make_list();
        for (const PointLine& line : box_.points)
            if (!line.of_assembly) add_line(points, line, place++, share);
        into.member("points") = std::move(points);
        Node assemblies = Node::make_list();
        for (const AskedAssembly& each : box_.assemblies)
            if (const int count = share[place++]; count > 0) {
                Node own = sent_.find("assemblies")->items[each.index];
                own.member("quantity") = Node::make_number(words_of(count));
                assemblies.items.push_back(std::move(own));
            }
        if (!box_.assemblies.empty()) into.member("assemblies") = std::move(assemblies);
    }

private:
    void add_line(Node& points, const PointLine& line, std::size_t place, const BoxShare& share) {
        const int count = share[place];
        if (count == 0) return;
        Node own = sent_.find("points")->items[line.index];
        own.member("count") = Node::make_number(words_of(count));
        keep_entries(own, given_[place], count);
        given_[place] += count;
        points.items.push_back(std::move(own));
    }

    const Box& box_;
    const Node& sent_;
    std::vector<BoxShare> shares_;
    BoxShare given_; ///< to the boxes before
};

std::vector<std::string> new_names(const BidRequest& request, const Parting& how) {
    std::vector<std::string> names;
    const auto borne = [&](const std::string& name) {
        return std::any_of(request.boxes.begin(), request.boxes.end(),
                           [&](const Box& box) { return box.name == name; });
    };
    for (int number = 2; names.size() + 1 < index_of(how.boxes); ++number) {
        std::string name = request.boxes[how.box].name + "-" + words_of(number);
        if (!borne(name)) names.push_back(std::move(name));
    }
    return names;
}

/// What a further box has in common with the parted one.
Node further_box(const Box& parted, const Node& sent, Controllers controllers) {
    Node box = sent;
    for (const char* key : {"equipment", "work", "points", "assemblies"}) box.erase(key);
    Node& work = box.member("work") = Node::make_object();
    for (const char* key : {"screens", "soft_points", "network_devices", "loops"})
        work.member(key) = Node::make_number("0");
    if (Node* choices = box.find("choices")) {
        choices->erase("keep");
        if (parted.choices.enclosure == EnclosureChoice::existing_plate)
            choices->erase("enclosure");
    }
    if (controllers == Controllers::one && parted.controlled_by == ControlledBy::own) {
        box.member("controlled_by") = Node::make_text(parted.name);
        box.erase("link");     // how far they stand apart nobody said
        box.erase("quantity"); // of a led box: for each system
        if (Node* choices = box.find("choices")) choices->erase("redundant_controller");
    }
    return box;
}

const Node* object_at(const Node& tree, std::initializer_list<std::string_view> keys) {
    const Node* node = &tree;
    for (const std::string_view key : keys) {
        node = node->is(Node::Kind::object) ? node->find(key) : nullptr;
        if (!node) return nullptr;
    }
    return node->is(Node::Kind::object) ? node : nullptr;
}

} // namespace

std::vector<BoxShare> shares_of(const Box& box, int boxes, Shares shares) {
    const std::vector<int> counts = counts_of(box);
    return shares == Shares::even ? even_shares(counts, boxes) : shares_together(counts, boxes);
}

PartedBox part_box(const BidRequest& request, const Parting& how) {
    const Box& box = request.boxes[how.box];
    const Node& sent = request.sent.find("boxes")->items[box.index];
    PartedBox parted{Node::make_object(), new_names(request, how)};
    ShareWriter shares(box, sent, shares_of(box, how.boxes, how.shares));
    shares.write(0, parted.boxes.member(box.name) = Node::make_object());
    for (std::size_t i = 0; i < parted.names.size(); ++i) {
        Node& further = parted.boxes.member(parted.names[i]) =
            further_box(box, sent, how.controllers);
        further.member("name") = Node::make_text(parted.names[i]);
        shares.write(i + 1, further);
    }
    return parted;
}

OptionsAfter options_after(const Node& options, const std::string& name,
                           const std::vector<std::string>& further) {
    OptionsAfter after{options, {}};
    bool touched = false;
    std::erase_if(after.options.items, [&](const Node& option) {
        const Node* change = object_at(option, {"change", "boxes", name});
        const auto shared = [](const Member& each) {
            return each.key != "site" && each.key != "choices" && each.key != "equipment" &&
                   each.key != "work";
        };
        if (!change || std::none_of(change->members.begin(), change->members.end(), shared))
            return false;
        touched = true;
        const Node* title = option.find("title");
        after.left_out.push_back(title ? title->text : "");
        return true;
    });
    for (Node& option : after.options.items) {
        const Node* change = object_at(option, {"change", "boxes", name});
        if (!change) continue;
        touched = true;
        Node same = Node::make_object();
        for (const char* key : {"site", "choices"})
            if (const Node* value = change->find(key)) same.member(key) = *value;
        if (same.members.empty()) continue;
        Node& boxes = *option.find("change")->find("boxes");
        for (const std::string& each : further) boxes.member(each) = same;
    }
    if (!touched) after.options = Node::make_null();
    return after;
}

} // namespace backplate
