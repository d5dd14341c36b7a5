#include "pricing/job/price_steps.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "pricing/book/part_fields.h"
#include "pricing/job/difference.h"
#include "pricing/job/findings.h"
#include "pricing/request/check_request.h"
#include "pricing/request/options.h"

namespace backplate {
namespace {

/// What grows with the channels, metre by metre and piece by piece.
constexpr auto plain_kinds = std::array{std::string_view("terminal"),  std::string_view("wire"),
                                        std::string_view("interface"), std::string_view("rail"),
                                        std::string_view("duct"),      std::string_view("labels")};

using Devices = std::map<std::tuple<std::string, std::string, std::string>, std::int64_t>;

/// Pieces by box, kind and part.
Devices devices_of(const Estimate& estimate, const PriceBook& book) {
    Devices devices;
    for (const BillLine& line : estimate.bill) {
        const Part* part = book.find(line.part);
        if (!part || line.role == "accessory") continue;
        if (std::find(plain_kinds.begin(), plain_kinds.end(), part->kind) == plain_kinds.end())
            devices[{line.box, part->kind, line.part}] += line.quantity;
    }
    return devices;
}

DeviceChange& change_of(std::vector<DeviceChange>& changes, const std::string& box,
                        const std::string& kind) {
    for (DeviceChange& change : changes)
        if (change.box == box && change.kind == kind) return change;
    changes.push_back({box, kind, {}, {}});
    return changes.back();
}

/// As the bill goes: from the controller to the enclosure and its cooling.
std::ptrdiff_t rank_of(const std::string& kind) {
    const auto kinds = part_kinds();
    return std::find(kinds.begin(), kinds.end(), kind) - kinds.begin();
}

std::vector<DeviceChange> changes_between(const Devices& before, const Devices& after) {
    Devices more = after;
    for (const auto& [device, pieces] : before) more[device] -= pieces;
    std::vector<DeviceChange> changes;
    for (const auto& [device, pieces] : more) {
        const auto& [box, kind, part] = device;
        if (pieces == 0) continue;
        DeviceChange& change = change_of(changes, box, kind);
        (pieces > 0 ? change.added : change.removed)
            .push_back({part, static_cast<int>(std::abs(pieces))});
    }
    std::stable_sort(
        changes.begin(), changes.end(), [](const DeviceChange& a, const DeviceChange& b) {
            return std::pair(a.box, rank_of(a.kind)) < std::pair(b.box, rank_of(b.kind));
        });
    return changes;
}

PointResult point_of(const Estimate& base, const std::string& box, const std::string& signal) {
    for (const PointResult& point : base.points)
        if (point.box == box && point.signal == signal) return point;
    return {};
}

/// What is kept of a run.
struct Probe {
    bool builds = false;
    Money price, unrounded;
    Devices devices;
    int headroom = 0; ///< of the signal in the box, as the estimate says
    std::string limits;
};

Probe probe_of(const Estimate& estimate, const PriceBook& book, const std::string& box,
               const std::string& signal) {
    Probe probe;
    probe.builds = estimate.buildable;
    if (!estimate.buildable) {
        probe.limits = limits_of(estimate);
        return probe;
    }
    probe.price = estimate.price->price;
    probe.unrounded = estimate.price->price - estimate.price->rounding;
    probe.devices = devices_of(estimate, book);
    probe.headroom = point_of(estimate, box, signal).headroom;
    return probe;
}

/// The row of points that takes the further ones.
struct Row {
    std::size_t box = 0;
    std::optional<std::size_t> place; ///< in the box's points; nothing: a new one
    std::string signal, id;
    int count = 0;
};

std::vector<Row> rows_of(const Box& box) {
    std::vector<Row> rows;
    const auto known = [&](const std::string& signal, bool any) {
        return std::any_of(rows.begin(), rows.end(), [&](const Row& row) {
            return row.signal == signal && (any || row.id.empty());
        });
    };
    for (const PointLine& line : box.points)
        if (!line.of_assembly && (!line.id.empty() || !known(line.signal, false)))
            rows.push_back({box.index, line.index, line.signal, line.id, line.count});
    for (const PointLine& line : box.points)
        if (line.of_assembly && !known(line.signal, true))
            rows.push_back({box.index, std::nullopt, line.signal, "", 0});
    return rows;
}

void add_points(Node& request, const Row& row, int more) {
    Node& points = request.find("boxes")->items[row.box].member("points");
    if (!row.place) {
        if (!points.is(Node::Kind::list)) points = Node::make_list();
        points.items.push_back(Node::make_object());
        points.items.back().member("signal") = Node::make_text(row.signal);
    }
    Node& line = row.place ? points.items[*row.place] : points.items.back();
    line.member("count") = Node::make_number(steps_text(row.count + more, 0));
    line.erase("list"); // its length is the count; tags cost nothing
}

/// Whole runs with so many points more, each made once.
class Runs {
public:
    Runs(const Estimate& base, const Node& request, const Row& row, const PriceBook& book,
         const RuleBook& rules, Work& work)
        : base_(base), request_(request), row_(row), book_(book), rules_(rules), work_(work) {
        probes_[0] = probe(base);
    }

    const Probe& with(int more) {
        const auto known = probes_.find(more);
        if (known != probes_.end()) return known->second;
        Node changed = request_;
        add_points(changed, row_, more);
        const CheckedRequest checked = check_request(changed, rules_, base_.request.date);
        Probe& made = probes_[more];
        if (!checked.request) {
            made.limits = checked.faults.front().text;
            return made;
        }
        Work own = work_.beside({.range = false});
        made = probe(price_once(*checked.request, book_, rules_, own));
        work_.add_trial(own);
        return made;
    }

    int runs() const { return static_cast<int>(probes_.size()) - 1; }

private:
    Probe probe(const Estimate& estimate) const {
        return probe_of(estimate, book_, base_.request.boxes[row_.box].name, row_.signal);
    }

    const Estimate& base_;
    const Node& request_;
    const Row& row_;
    const PriceBook& book_;
    const RuleBook& rules_;
    Work& work_;
    std::map<int, Probe> probes_;
};

/// The least number above `at` with other devices and none of them with one point less; beyond
/// `most` where there is none. The estimate's own headroom is looked at first.
int next_change(Runs& runs, int at, int most) {
    const Devices& same = runs.with(at).devices;
    const auto differs = [&](int more) {
        const Probe& probe = runs.with(more);
        return !probe.builds || probe.devices != same;
    };
    int low = at, high = std::min(at + runs.with(at).headroom + 1, most), reach = 1;
    while (!differs(high)) {
        if (high == most) return most + 1;
        low = high;
        high = std::min(high + reach, most);
        reach *= 2;
    }
    int middle = high - 1;
    while (high - low > 1) {
        (differs(middle) ? high : low) = middle;
        middle = low + (high - low) / 2;
    }
    return high;
}

/// Of each of the points from `at` to `to`; nothing where there is none.
std::optional<Money> plain_price(Runs& runs, int at, int to) {
    if (to <= at) return std::nullopt;
    return (runs.with(to).unrounded - runs.with(at).unrounded).ratio(1, to - at);
}

PriceStep step_at(Runs& runs, int before, int points) {
    PriceStep step;
    const Probe& last = runs.with(points - 1);
    const Probe& next = runs.with(points);
    step.points = points;
    step.price_before = last.price;
    step.point_price = plain_price(runs, before, points - 1);
    step.limits = next.limits;
    if (!next.builds) return step;
    step.price = next.price;
    step.changes = changes_between(last.devices, next.devices);
    return step;
}

/// By the rules, and at least one beyond those that the estimate says cost no module.
int most_points(const PointResult& point, const PriceStepRules& rules) {
    if (!rules.share_percent && !rules.least_points) return 0;
    const double share = rules.share_percent ? rules.share_percent->number() : 0;
    const double least = rules.least_points ? rules.least_points->number() : 0;
    const long long most = std::max(need_in(point.used * share / 100, 1), need_in(least, 1));
    return std::max(static_cast<int>(most), point.headroom + 1);
}

PriceSteps steps_of(Runs& runs, PriceSteps found) {
    int at = 0;
    while (at < found.looked_at) {
        const int next = next_change(runs, at, found.looked_at);
        if (next > found.looked_at) break;
        found.steps.push_back(step_at(runs, at, next));
        at = next;
        if (!found.steps.back().price) break;
    }
    found.free_points = found.steps.empty() ? found.looked_at : found.steps.front().points - 1;
    found.point_price = plain_price(runs, 0, found.free_points);
    return found;
}

} // namespace

FoundSteps price_steps(const Estimate& base, const PriceBook& book, const RuleBook& rules,
                       Work& work) {
    FoundSteps found;
    if (!base.buildable) return found;
    const Node request = changeable(base.request);
    for (const Box& box : base.request.boxes)
        for (const Row& row : rows_of(box)) {
            const PointResult point = point_of(base, box.name, row.signal);
            PriceSteps steps;
            steps.box = box.name;
            steps.signal = row.signal;
            steps.id = row.id;
            steps.boxes = box.quantity;
            steps.used = point.used;
            steps.looked_at = most_points(point, rules.price_steps);
            Runs runs(base, request, row, book, rules, work);
            found.signals.push_back(steps_of(runs, std::move(steps)));
            found.runs += runs.runs();
        }
    return found;
}

FoundSteps asked_price_steps(const Estimate& base, const PriceBook& book, const RuleBook& rules,
                             Work& work) {
    if (!has_circumstance(base.request, "unit_prices")) return {};
    return price_steps(base, book, rules, work);
}

} // namespace backplate
