#include "pricing/panel/choose_panel.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>

#include "tests/pricing/mix/every_arrangement.h"
#include "tests/pricing/panel/random_groups.h"

using namespace backplate;

namespace {

/// Bounds of one start against every panel with another supply that costs no less.
void check_bounds(const PanelDesign& start, const SearchFacts& search, int& judged, int& wrong) {
    for (const SupplyChoice& cheap : search.supplies)
        for (const SupplyChoice& dear : search.supplies) {
            if (price_of(dear) < price_of(cheap)) continue;
            PanelDesign powered = start;
            if (with_power(powered, search, dear, {}, 0) != Refusal::none) continue;
            const std::int64_t bound =
                least_cost(start, search, cheap) - price_of(cheap) + price_of(dear);
            const double length = search.rules->wires.at("length").number();
            const std::int64_t metres = need_in(powered.wires * length, 1);
            powered.counts.enclosures_wall = search.housing.prepared ? 1 : 0;
            for (const TerminalCount& count : powered.terminal_counts)
                if (count.pieces > 0)
                    powered.bill.push_back({count.part, nullptr, "terminal", count.pieces});
            powered.bill.push_back({search.parts.wire, nullptr, "wire", metres});
            powered.counts.bill_lines = static_cast<int>(powered.bill.size());
            ++judged;
            wrong += bound > direct_cost(powered, search) ? 1 : 0;
        }
}

/// All modules behind one controller, as if places and bus were without limit.
Arrangement in_one_row(const MixMember& member, const Part& controller) {
    Arrangement arrangement;
    arrangement.member = member;
    Station station;
    station.places.push_back({&controller, controller.groups.empty() ? -1 : 0});
    for (std::size_t i = controller.groups.empty() ? 0 : 1; i < member.uses.size(); ++i)
        station.places.push_back({member.uses[i].part, static_cast<int>(i)});
    arrangement.stations = {station};
    return arrangement;
}

} // namespace

TEST_CASE("the lower bound with a supply holds for every dearer one") {
    Draws draws(37);
    int judged = 0, wrong = 0;
    for (int i = 0; i < 60; ++i) {
        const PriceBook book(random_book(draws), 1);
        const BidRequest request = request_of(random_request(draws));
        Work work;
        const PanelChoice choice =
            choose_panel(request, request.boxes.front(), book, starter_rules(), work);
        const SearchFacts& search = *choice.search;
        for (const PlatformCase& platform :
             platform_cases(book, search.facts, starter_rules(), search.plan))
            for (const MixMember& member : mix_front(platform.problem, work).members)
                check_bounds(
                    with_arrangement(search, platform, in_one_row(member, *platform.leader)),
                    search, judged, wrong);
    }
    std::cout << "lower bounds: " << judged << " judged, " << wrong << " wrong\n";
    CHECK(judged >= 2000);
    CHECK(wrong == 0);
}

namespace {

/// One request on one random book, all of whose limits are wide enough.
PanelChoice choice_with(const std::string& choices, Work& work, const PriceBook& book,
                        BidRequest& request) {
    request = request_of(
        box_request(points_text({{"DI", 12}, {"AI_MA", 2}}), R"(, "choices": {)" + choices + "}"));
    return choose_panel(request, request.boxes.front(), book, starter_rules(), work);
}

int pieces_of(const PanelDesign& design, const std::string& part) {
    for (const BillItem& item : design.bill)
        if (item.part && item.part->key == part) return static_cast<int>(item.quantity);
    return 0;
}

} // namespace

TEST_CASE("a redundant pair brings the second controller, supply and what decouples") {
    Draws draws(53);
    const PriceBook book(random_book(draws), 1);
    Work work;
    BidRequest request;
    const PanelChoice alone = choice_with("", work, book, request);
    BidRequest paired;
    const PanelChoice pair = choice_with(
        R"("redundant_supply": true, "redundant_controller": true)", work, book, paired);
    REQUIRE(alone.design);
    REQUIRE(pair.design);
    CHECK(pieces_of(*alone.design, "C1") == 1);
    CHECK(pieces_of(*pair.design, "C1") == 2);
    CHECK(pieces_of(*pair.design, pair.design->supply.part->key) == 2);
    CHECK(pieces_of(*pair.design, "RED") == 1);
    // one plus one: one alone carries all (climate-and-supply 5.4)
    CHECK(pair.design->supply.rated_a() == *pair.design->supply.part->rated_a);
    CHECK(pair.design->together.value <= 0.8 * *pair.design->supply.part->rated_a);
}

namespace {

/// The random book with two supplies alone: two of the small one carry the load, one does not; the
/// large one carries it alone.
std::vector<Part> with_two_supplies(std::vector<Part> parts, double load_a, int large_price) {
    const auto first = std::find_if(parts.begin(), parts.end(),
                                    [](const Part& part) { return part.kind == "supply"; });
    Part small = *first;
    std::erase_if(parts, [](const Part& part) { return part.kind == "supply"; });
    small.key = "SMALL";
    small.list = Money::whole(30);
    small.rated_a = load_a / 0.8 * 0.6;
    Part large = small;
    large.key = "LARGE";
    large.list = Money::whole(large_price);
    large.rated_a = load_a / 0.8 * 1.2;
    parts.push_back(small);
    parts.push_back(large);
    return parts;
}

} // namespace

TEST_CASE("three small supplies or two large ones, whichever makes the cheaper panel") {
    Draws draws(53);
    const std::vector<Part> parts = random_book(draws);
    const PriceBook plain(parts, 1);
    Work work;
    BidRequest request;
    const std::string asked = R"("redundant_supply": true)";
    const PanelChoice first = choice_with(asked, work, plain, request);
    REQUIRE(first.design);
    const double load = first.design->together.value;
    struct Row {
        int large_price;
        const char* part;
        int pieces, decouplers;
    };
    // 3 x 30 and two decouplings of 60 against 2 x the large one and one decoupling
    for (const Row& row : {Row{40, "LARGE", 2, 1}, Row{200, "SMALL", 3, 2}}) {
        const PriceBook book(with_two_supplies(parts, load, row.large_price), 1);
        const PanelChoice choice = choice_with(asked, work, book, request);
        CAPTURE(row.large_price, choice.limits);
        REQUIRE(choice.design);
        CHECK(pieces_of(*choice.design, row.part) == row.pieces);
        CHECK(pieces_of(*choice.design, "RED") == row.decouplers);
        CHECK(choice.design->supply.rated_a() * 0.8 >= load); // with one of them away
    }
}

TEST_CASE("a backup stores what the load needs for the time asked") {
    Draws draws(59);
    const PriceBook book(random_book(draws), 1);
    Work work;
    for (const int minutes : {1, 10, 60, 240}) {
        BidRequest request;
        const PanelChoice choice =
            choice_with(R"("backup_minutes": )" + std::to_string(minutes), work, book, request);
        REQUIRE(choice.design);
        const PanelDesign& design = *choice.design;
        const Part& part = *design.backup;
        // E = P t; own current of the backup is drawn as well (climate-and-supply 5.5)
        const double needed = design.together.value * 24 * minutes / 60;
        const double stored = *part.capacity_wh * 0.75 * design.backup_pieces;
        CAPTURE(minutes, part.key, design.backup_pieces, needed, stored);
        CHECK(stored >= needed - 1e-9);
        if (design.backup_pieces > 1) CHECK(stored - *part.capacity_wh * 0.75 < needed);
    }
}

TEST_CASE("what the client brings is not on the bill and has no verdict on heat") {
    Draws draws(61);
    const PriceBook book(random_book(draws), 1);
    Work work;
    BidRequest one, two, three;
    const PanelChoice existing = choice_with(
        R"("enclosure": {"existing_plate_mm": {"width": 1100, "height": 1700}})", work, book, one);
    const PanelChoice client = choice_with(R"("enclosure": "by_client")", work, book, two);
    const PanelChoice plate = choice_with(R"("enclosure": "plate_only")", work, book, three);
    for (const PanelChoice* choice : {&existing, &client, &plate}) {
        REQUIRE(choice->design);
        for (const BillItem& item : choice->design->bill) CHECK(item.role != "enclosure");
        CHECK_FALSE(choice->search->housing.walls_known);
    }
    CHECK(*existing.design->enclosure->plate_width_mm == 1100);
    CHECK(pieces_of(*plate.design, plate.design->enclosure->key) == 1);
    // the plate needed: none of the smaller sizes holds the devices
    const Part& needed = *client.design->enclosure;
    for (const Suite& each : client.search->housing.candidates)
        if (plate_area(each) < plate_area(needed))
            CHECK_FALSE(room_plan(client.design->need, each, two.boxes.front().choices.room,
                                  starter_rules().room));
}

TEST_CASE("an existing plate that is too small is refused with both sizes and the room that fits") {
    Draws draws(67);
    const PriceBook book(random_book(draws), 1);
    Work work;
    BidRequest request;
    const PanelChoice choice = choice_with(
        R"("room_percent": 100, "enclosure": {"existing_plate_mm": {"width": 500, "height": 900}})",
        work, book, request);
    REQUIRE_FALSE(choice.design);
    REQUIRE(choice.limits.size() == 1);
    const std::string& text = choice.limits.front();
    CAPTURE(text);
    CHECK(text.find("500 × 900 mm") != std::string::npos);
    CHECK(text.find("which ask for 500 × ") != std::string::npos);
    CHECK(text.find("% free room it would") != std::string::npos);
}

TEST_CASE("a choice of modules that is no worse in every sum costs no more") {
    Draws draws(41);
    RuleBook rules = starter_rules();
    for (LabourNorm& norm : rules.labour) // a shop where landing a screen is slow: it must count
        if (norm.driver == "shield") norm.rule.value = {60, 0};
    int compared = 0, wrong = 0;
    for (int i = 0; i < 120; ++i) {
        const PriceBook book(random_book(draws), 1);
        const BidRequest request = request_of(random_request(draws));
        Work work;
        const PanelChoice choice = choose_panel(request, request.boxes.front(), book, rules, work);
        const SearchFacts& search = *choice.search;
        for (const PlatformCase& platform :
             platform_cases(book, search.facts, rules, search.plan)) {
            std::vector<MixMember> members = EveryCover(platform.problem).all();
            if (members.size() > 150) members.resize(150);
            std::vector<std::int64_t> costs;
            for (const MixMember& member : members)
                costs.push_back(
                    with_arrangement(search, platform, in_one_row(member, *platform.leader))
                        .direct_cost);
            for (std::size_t a = 0; a < members.size(); ++a)
                for (std::size_t b = 0; b < members.size(); ++b) {
                    if (a == b || !no_worse(members[a].sums, members[a].kinds, members[b].sums,
                                            members[b].kinds))
                        continue;
                    ++compared;
                    wrong += costs[a] > costs[b] ? 1 : 0;
                }
        }
    }
    std::cout << "sums of modules: " << compared << " pairs compared, " << wrong << " wrong\n";
    CHECK(compared >= 5000);
    CHECK(wrong == 0);
}
