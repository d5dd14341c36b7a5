// A box parted over several: shares, the change that parts it, and what the alternatives of a job
// that nothing builds say, judged by whole runs of the changed requests. Requests and prices are
// invented.
#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>
#include <map>
#include <numeric>
#include <set>

#include "pricing/job/alternatives.h"
#include "pricing/job/parting_search.h"
#include "pricing/request/check_request.h"
#include "pricing/request/options.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

const std::string small_site = R"("site": {"max_mm": {"width": 600, "height": 800, "depth": 300}})";

const std::string small_boxes = ", " + small_site + R"(, "choices": {"platforms": ["slice"]})";

Node change_of(Node boxes) {
    Node change = Node::make_object();
    change.member("boxes") = std::move(boxes);
    return change;
}

/// The request as sent, with the change applied; throws where it is not sound.
BidRequest changed(const BidRequest& request, const Node& change) {
    Node node = changeable(request);
    REQUIRE_FALSE(apply_change(node, change));
    CheckedRequest checked = check_request(node, starter_rules(), request.date);
    if (!checked.request) FAIL(checked.faults.front().where + ": " + checked.faults.front().text);
    return *std::move(checked.request);
}

BidRequest parted(const BidRequest& request, const Parting& how) {
    return changed(request, change_of(part_box(request, how).boxes));
}

std::map<std::string, int> points_of(const BidRequest& request) {
    std::map<std::string, int> counts;
    for (const Box& box : request.boxes)
        for (const PointLine& line : box.points)
            if (line.count > 0) counts[line.signal] += line.count * box.quantity;
    return counts;
}

Estimate estimate_of(const BidRequest& request) {
    const PriceBook book = demo_book();
    Work work;
    return price_once(request, book, starter_rules(), work);
}

std::vector<Trial> trials_of(const BidRequest& request, const RuleBook& rules = starter_rules()) {
    const PriceBook book = demo_book();
    Work work;
    const Estimate base = price_once(request, book, rules, work);
    CHECK_FALSE(base.buildable);
    return parted_trials(base, book, rules, work);
}

/// Lines of points and pieces of an assembly, drawn; lists of tags beside every other line.
std::string random_box(Draws& draws) {
    const std::vector<std::string> signals{"DI", "DO", "AI_MA", "AO_MA", "RTD"};
    std::string points;
    for (int line = draws.between(1, 5); line > 0; --line) {
        const int count = draws.between(1, 40);
        std::string list;
        for (int i = 0; line % 2 == 0 && i < count; ++i)
            list += (i == 0 ? R"(, "list": [)" : ", ") + (R"({"tag": "T)" + std::to_string(line)) +
                    "-" + std::to_string(i) + "\"}";
        points += (points.empty() ? "" : ", ") +
                  (R"({"signal": ")" + signals[static_cast<std::size_t>(line) - 1]) +
                  R"(", "count": )" + std::to_string(count) + list + (list.empty() ? "}" : "]}");
    }
    return box_request(points,
                       R"(, "assemblies": [{"name": "motor, direct on line", "quantity": )" +
                           std::to_string(draws.between(0, 9)) + "}]");
}

std::vector<std::string> tags_of(const BidRequest& request, const std::string& signal) {
    std::vector<std::string> tags;
    for (const Box& box : request.boxes)
        for (const PointLine& line : box.points)
            if (line.signal == signal)
                for (const ListedPoint& point : line.list) tags.push_back(point.tag);
    return tags;
}

} // namespace

TEST_CASE("shares of a box add up, lie even or lie together") {
    Draws draws(71);
    int judged = 0;
    for (int i = 0; i < 400; ++i) {
        const BidRequest request = request_of(random_box(draws));
        const Box& box = request.boxes.front();
        const int boxes = draws.between(2, 12);
        const auto even = shares_of(box, boxes, Shares::even);
        const auto together = shares_of(box, boxes, Shares::together);
        REQUIRE(even.size() == static_cast<std::size_t>(boxes));
        REQUIRE(together.size() == even.size());
        std::size_t lines = even.front().size(), stands = 0;
        for (std::size_t line = 0; line < lines; ++line) {
            int sum = 0, least = 1000000, most = 0, both = 0;
            for (std::size_t part = 0; part < even.size(); ++part) {
                sum += even[part][line];
                both += together[part][line];
                least = std::min(least, even[part][line]);
                most = std::max(most, even[part][line]);
                stands += together[part][line] > 0 ? 1 : 0;
            }
            REQUIRE(sum == both);
            REQUIRE(most - least <= 1);
        }
        // each border between two boxes lets at most one line stand on both sides
        REQUIRE(stands <= lines + even.size() - 1);
        std::set<int> totals, even_totals;
        for (const BoxShare& share : together)
            totals.insert(std::accumulate(share.begin(), share.end(), 0));
        for (const BoxShare& share : even)
            even_totals.insert(std::accumulate(share.begin(), share.end(), 0));
        REQUIRE(*totals.rbegin() - *totals.begin() <= 1);
        REQUIRE(*even_totals.rbegin() - *even_totals.begin() <= 1);
        ++judged;
    }
    std::cout << judged << " shared boxes judged\n";
}

TEST_CASE("a parted job has the points, tags and assemblies of the whole one") {
    Draws draws(72);
    int judged = 0;
    for (int i = 0; i < 60; ++i) {
        const BidRequest request = request_of(random_box(draws));
        const int total =
            std::accumulate(request.boxes[0].points.begin(), request.boxes[0].points.end(), 0,
                            [](int sum, const PointLine& line) {
                                return sum + (line.of_assembly ? 0 : line.count);
                            });
        for (const Shares shares : {Shares::even, Shares::together}) {
            const int boxes = std::min(draws.between(2, 5), std::max(total / 8, 1));
            if (boxes < 2) continue;
            Parting how{0, boxes, shares, Controllers::each};
            const auto parts = shares_of(request.boxes[0], boxes, shares);
            const std::size_t lines = parts[0].size() - request.boxes[0].assemblies.size();
            if (std::any_of(parts.begin(), parts.end(), [&](const BoxShare& share) {
                    return std::accumulate(share.begin(), share.begin() + static_cast<long>(lines),
                                           0) == 0;
                }))
                continue; // a box of assemblies alone has no points of its own
            const BidRequest after = parted(request, how);
            REQUIRE(after.boxes.size() == static_cast<std::size_t>(boxes));
            CHECK(points_of(after) == points_of(request));
            for (const auto& [signal, count] : points_of(request))
                CHECK(tags_of(after, signal) == tags_of(request, signal));
            ++judged;
        }
    }
    CHECK(judged >= 80);
    std::cout << judged << " parted jobs judged\n";
}

TEST_CASE("what stands once stays in the parted box, what holds everywhere is in each") {
    const BidRequest request = request_of(
        R"({"format": "backplate-request/1", "boxes": [{"name": "A-2", "points": [)" +
        points_text({{"DI", 4}}) + R"(]}, {"name": "A", "quantity": 2, "points": [)" +
        points_text({{"DI", 20}, {"DO", 9}}) + "], " + small_site +
        R"(, "work": {"screens": 3}, "equipment": [{"text": "Panel by client", "watts": 5}],
        "choices": {"keep": [{"part": "VC-101"}], "room_percent": 35,
                    "enclosure": {"existing_plate_mm": {"width": 500, "height": 700}}}}]})");
    const BidRequest after = parted(request, {1, 3, Shares::even, Controllers::each});
    REQUIRE(after.boxes.size() == 4);
    CHECK(after.boxes[2].name == "A-3"); // A-2 is borne
    CHECK(after.boxes[3].name == "A-4");
    const Box& first = after.boxes[1];
    CHECK(first.equipment.size() == 1);
    CHECK(first.work.screens == 3);
    CHECK(first.choices.keep.size() == 1);
    CHECK(first.choices.enclosure == EnclosureChoice::existing_plate);
    for (const std::size_t i : {std::size_t{2}, std::size_t{3}}) {
        const Box& further = after.boxes[i];
        CHECK(further.controlled_by == ControlledBy::own);
        CHECK(further.quantity == 2);
        CHECK(further.equipment.empty());
        CHECK(further.work.screens == 0);
        CHECK(further.choices.keep.empty());
        CHECK(further.choices.enclosure == EnclosureChoice::choose);
        CHECK(further.choices.room == Percent::whole(35));
        CHECK(further.site.max_width_mm == 600);
        CHECK(std::none_of(after.assumptions.begin(), after.assumptions.end(),
                           [](const Assumption& each) {
                               return each.field.starts_with("/boxes/2/work") ||
                                      each.field.starts_with("/boxes/3/work");
                           }));
    }
    const BidRequest led = parted(request, {1, 3, Shares::even, Controllers::one});
    CHECK(led.boxes[2].controlled_by == ControlledBy::other_box);
    CHECK(led.boxes[3].controller_box == 1);
    CHECK(led.boxes[3].quantity == 2);
}

TEST_CASE("a change adds a box that states its own name, and no other") {
    const BidRequest request = request_of(box_request(points_text({{"DI", 4}})));
    const auto added = [&](const std::string& box) {
        Node node = changeable(request);
        const Node change = parse_json("change", R"({"boxes": {"CP9": )" + box + "}}").root;
        const auto nobody = apply_change(node, change);
        return nobody ? *nobody : std::to_string(node.find("boxes")->items.size());
    };
    CHECK(added(R"({"name": "CP9", "points": [{"signal": "DI", "count": 2}]})") == "2");
    CHECK(added(R"({"name": "CP8", "points": []})") == "/boxes/CP9");
    CHECK(added(R"({"points": [{"signal": "DI", "count": 2}]})") == "/boxes/CP9");
}

TEST_CASE("options that change site or choices change them in every part, others are left out") {
    const Node options = parse_json("options", R"([
        {"title": "Stainless", "kind": "instead", "change": {"boxes": {"A": {"choices": {"material": "stainless"}}}}},
        {"title": "More inputs", "kind": "added", "change": {"boxes": {"A": {"points": {"DI": {"count": 60}}}}}},
        {"title": "No drawings", "kind": "omitted", "change": {"scope": {"drawings": "excluded"}}}])")
                             .root;
    const OptionsAfter after = options_after(options, "A", {"A-2", "A-3"});
    CHECK(after.left_out == std::vector<std::string>{"More inputs"});
    REQUIRE(after.options.items.size() == 2);
    const Node* boxes = at_pointer(after.options, "/0/change/boxes");
    REQUIRE(boxes);
    CHECK(boxes->members.size() == 3);
    CHECK(*boxes->find("A-3") == *boxes->find("A"));
    CHECK(after.options.items[1] == options.items[2]);
    CHECK(options_after(options, "B", {"B-2"}).options.is(Node::Kind::null));
}

TEST_CASE("a job that no single box holds is offered over as few boxes as do") {
    const BidRequest request = request_of(
        box_request(points_text({{"DI", 80}, {"DO", 24}, {"AI_MA", 4}}),
                    small_boxes + R"(, "equipment": [{"text": "Router", "watts": 6, "amps_24v": 0.2,
                                      "width_mm": 60, "height_mm": 120, "depth_mm": 90, "price": "200.00"}])"));
    const PriceBook book = demo_book();
    Work work;
    const Alternatives found = find_alternatives(request, book, starter_rules(), 100, work);
    REQUIRE_FALSE(found.base.buildable);
    REQUIRE(found.alternatives.size() >= 3);
    std::set<std::string> titles;
    Money before;
    for (const Alternative& each : found.alternatives) {
        CAPTURE(each.title, each.reason);
        CHECK_FALSE(each.difference);
        CHECK(each.price >= before);
        before = each.price;
        CHECK(titles.insert(each.title).second);
        const BidRequest after = changed(request, each.taken_by);
        CHECK(points_of(after) == points_of(request));
        const Estimate whole = estimate_of(after);
        REQUIRE(whole.buildable);
        CHECK(whole.price->price == each.price);
        for (const BoxResult& box : whole.boxes) CHECK(*box.enclosures.at(0).width_mm <= 600);
        const std::size_t systems = each.title.find("one controller") == std::string::npos
                                        ? after.boxes.size()
                                        : std::size_t{1};
        CHECK(whole.systems.size() == systems);
        CHECK(each.title.starts_with("CP1 over " + std::to_string(after.boxes.size()) + " boxes"));
        const int fewer = static_cast<int>(after.boxes.size()) - 1;
        if (fewer < 2) continue;
        const Shares shares =
            each.title.find("together") == std::string::npos ? Shares::even : Shares::together;
        const Controllers led = systems == 1 ? Controllers::one : Controllers::each;
        CHECK_FALSE(estimate_of(parted(request, {0, fewer, shares, led})).buildable);
    }
    std::cout << found.alternatives.size() << " parted jobs priced\n";
}

TEST_CASE(
    "of a system it is the box that is too full that is parted, and several systems at once") {
    const std::string full = points_text({{"DI", 60}, {"DO", 12}});
    const std::string little = points_text({{"DI", 8}});
    const BidRequest request = request_of(
        R"({"format": "backplate-request/1", "boxes": [{"name": "A", "points": [)" + little +
        R"(]}, {"name": "B", "controlled_by": "A", "points": [)" + full + "]" + small_boxes +
        R"(}, {"name": "C", "points": [)" + full + "]" + small_boxes + "}]}");
    const std::vector<Trial> trials = trials_of(request);
    REQUIRE(trials.size() == 4);
    for (const Trial& each : trials) {
        CAPTURE(each.title);
        CHECK(each.title.starts_with("B over "));
        CHECK(each.title.find(" and C over ") != std::string::npos);
        const BidRequest after = changed(request, each.change);
        CHECK(points_of(after) == points_of(request));
        for (const Box& box : after.boxes)
            if (box.name.starts_with("B")) CHECK(box.controlled_by == ControlledBy::other_box);
        CHECK(estimate_of(after).buildable);
    }
}

TEST_CASE("where parting is of no help, or the rules allow none, nothing is offered") {
    const std::string full = points_text({{"DI", 120}, {"DO", 40}});
    CHECK(trials_of(request_of(box_request(full, R"(, "choices": {"platforms": ["nowhere"]})")))
              .empty());
    RuleBook rules = starter_rules();
    const BidRequest request = request_of(box_request(full, small_boxes));
    CHECK_FALSE(trials_of(request, rules).empty());
    rules.conflicts.most_boxes->value = Decimal{2, 0};
    CHECK(trials_of(request, rules).empty());
    rules.conflicts.most_boxes.reset();
    CHECK(trials_of(request, rules).empty());
}
