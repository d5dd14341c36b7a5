// Channels of chosen modules: what each group serves, which device stands where. Judged by counting
// and by every way to place small sets of devices; the demo jobs by their own lists.
#include "pricing/mix/assign_channels.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>
#include <map>
#include <numeric>
#include <set>

#include "pricing/mix/accepts.h"
#include "pricing/mix/group_channels.h"
#include "pricing/mix/pack_devices.h"
#include "pricing/price_job.h"
#include "tests/pricing/mix/exhaustive_mix.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// The fewest devices that must be split, by every choice of whole ones.
std::size_t fewest_split(const std::vector<int>& devices, std::vector<int>& free, std::size_t at) {
    if (at == devices.size()) return 0;
    std::size_t best = fewest_split(devices, free, at + 1) + (devices[at] > 1 ? 1 : 0);
    for (int& place : free) {
        if (place < devices[at] || devices[at] < 2) continue;
        place -= devices[at];
        best = std::min(best, fewest_split(devices, free, at + 1));
        place += devices[at];
    }
    return best;
}

/// Common current, signals and counts of the groups, by a sum of its own.
void check_groups(const ModuleUse& use, const std::vector<MixLine>& lines,
                  const std::vector<GroupChannels>& groups) {
    std::vector<int> carried(lines.size(), 0), extra(lines.size(), 0);
    for (std::size_t at = 0; at < groups.size(); ++at) {
        const ChannelGroup& group = use.part->groups[at];
        std::int64_t common = 0;
        int channels = groups[at].idle;
        std::set<std::string> signals;
        for (std::size_t line = 0; line < lines.size(); ++line) {
            const int count = groups[at].carried[line] + groups[at].extra[line];
            carried[line] += groups[at].carried[line];
            extra[line] += groups[at].extra[line];
            channels += count;
            common += count * common_need(lines[line]);
            if (count > 0) signals.insert(lines[line].signal);
            if (count > accepts(group, lines[line])) FAIL("more than the group accepts");
        }
        if (channels != group.channels) FAIL("channels of the group are " << channels);
        if (common > common_limit(group)) FAIL("more than the group gives together");
        if (group.one_signal && signals.size() > 1) FAIL("two signals in a group of one");
    }
    if (carried != use.carried || extra != use.extra) FAIL("other counts than those of the use");
}

int points_of(const std::vector<Piece>& pieces) {
    int points = 0;
    for (const Piece& piece : pieces) points += piece.points;
    return points;
}

std::vector<int> places_of(Draws& draws, int points) {
    std::vector<int> places;
    for (int left = points; left > 0;) {
        places.push_back(std::min(left, draws.between(2, 8)));
        left -= places.back();
    }
    return places;
}

const std::string listed =
    R"({"signal": "DI", "count": 20, "list": [
      {"tag": "A1", "device": "V1"}, {"tag": "A2"}, {"tag": "A3", "device": "V2"},
      {"tag": "A4", "device": "V1"}, {"tag": "A5"}, {"tag": "A6", "device": "V3"},
      {"tag": "A7"}, {"tag": "A8", "device": "V2"}, {"tag": "A9"}, {"tag": "A10"},
      {"tag": "A11", "device": "V3"}, {"tag": "A12"}, {"tag": "A13"}, {"tag": "A14"},
      {"tag": "A15", "device": "V4"}, {"tag": "A16", "device": "V3"}, {"tag": "A17", "device": "V4"},
      {"tag": "A18", "device": "V5"}, {"tag": "A19", "device": "V1"}, {"tag": "A20", "device": "V5"}]},
    {"signal": "DO", "count": 6}, {"signal": "DI_AC", "count": 3})";

Estimate estimate_of(const std::string& json) {
    const PriceBook book = demo_book();
    Work work;
    return price_job(request_of(json), book, starter_rules(), work);
}

} // namespace

TEST_CASE("devices are split no more than every way to place them asks for") {
    int more = 0, splits = 0, cases = 0;
    for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
        Draws draws(seed);
        std::vector<int> devices;
        for (int i = draws.between(1, 7); i > 0; --i) devices.push_back(draws.between(1, 6));
        const int points = std::accumulate(devices.begin(), devices.end(), 0);
        std::vector<int> places = places_of(draws, points + draws.between(0, 2));
        const Packing packing = pack_devices(devices, places);
        CAPTURE(seed);
        for (std::size_t i = 0; i < devices.size(); ++i)
            REQUIRE(points_of(packing[i]) == devices[i]);
        for (std::size_t place = 0; place < places.size(); ++place) {
            int held = 0;
            for (const std::vector<Piece>& pieces : packing)
                for (const Piece& piece : pieces)
                    if (piece.place == place) held += piece.points;
            REQUIRE(held <= places[place]);
        }
        const std::size_t fewest = fewest_split(devices, places, 0);
        REQUIRE(split_devices(packing) >= fewest);
        more += static_cast<int>(split_devices(packing) - fewest);
        splits += static_cast<int>(fewest);
        ++cases;
    }
    std::cout << "devices in places: " << cases << " cases, " << splits
              << " devices must be split, " << more << " more are\n";
    CHECK(more == 0);
}

TEST_CASE("by hand: whole devices first, what fits nowhere in pieces") {
    // 4, 3 and 3 points, places of 6 and 4: the 4 fill the place of 4, both 3 the place of 6.
    CHECK(pack_devices({3, 4, 3}, {6, 4}) == Packing{{{0, 3}}, {{1, 4}}, {{0, 3}}});
    // 5 points into 4 and 4: split once, the single point takes what is left.
    CHECK(split_devices(pack_devices({5, 1}, {4, 4})) == 1);
    CHECK(pack_devices({}, {4}).empty());
    CHECK(split_devices(pack_devices({9}, {4, 4, 4})) == 1);
}

TEST_CASE("many devices end within the bound, every point placed") {
    Draws draws(11);
    std::vector<int> devices;
    for (int i = 0; i < 400; ++i) devices.push_back(draws.between(1, 5));
    const int points = std::accumulate(devices.begin(), devices.end(), 0);
    const std::vector<int> places(static_cast<std::size_t>((points + 15) / 16), 16);
    const Packing packing = pack_devices(devices, places);
    for (std::size_t i = 0; i < devices.size(); ++i) CHECK(points_of(packing[i]) == devices[i]);
    std::cout << "400 devices in " << places.size() << " places: " << split_devices(packing)
              << " split\n";
    CHECK(split_devices(packing) <= 4);
}

TEST_CASE("groups of a use hold its counts within their limits") {
    int judged = 0;
    Draws draws(7);
    for (int i = 0; i < 300; ++i) {
        Sample sample;
        random_sample(draws, sample);
        Work work;
        const std::vector<MixLine>& lines = sample.problem.lines;
        for (const MixMember& member : mix_front(sample.problem, work).members)
            for (const ModuleUse& use : member.uses) {
                check_groups(use, lines,
                             group_channels(use, lines, std::vector<bool>(lines.size(), false)));
                ++judged;
            }
    }
    std::cout << "uses split into groups: " << judged << "\n";
    CHECK(judged > 500);
}

TEST_CASE("mains and extra-low voltage share no group where another way is left") {
    Part part;
    part.key = "TWO";
    ChannelGroup either;
    either.channels = 4;
    either.signals = {"DI", "DI_AC"};
    part.groups = {either, either};
    std::vector<MixLine> lines(2);
    lines[0].signal = "DI";
    lines[1].signal = "DI_AC";
    const std::vector<bool> mains{false, true};
    const auto apart = group_channels({&part, {3, 2}, {0, 0}}, lines, mains);
    for (const GroupChannels& group : apart)
        CHECK((group.carried[0] == 0 || group.carried[1] == 0));
    const auto together = group_channels({&part, {5, 3}, {0, 0}}, lines, mains);
    CHECK(together[0].carried[0] + together[1].carried[0] == 5);
    for (const Part& each : demo_parts())
        for (const ChannelGroup& group : each.groups) {
            std::set<bool> levels;
            for (const std::string& signal : group.signals)
                levels.insert(starter_rules().find_signal(signal)->mains_level);
            CAPTURE(each.key);
            CHECK(levels.size() == 1);
        }
}

TEST_CASE("every point has one channel, every channel a number, devices stand together") {
    const Estimate estimate = estimate_of(
        box_request(listed, R"(, "choices": {"platforms": ["slice"], "exclude": ["QS-403"]})"));
    std::multiset<std::string> tags;
    std::map<std::string, std::set<int>> places;
    std::map<std::string, int> points, spare;
    int place = 0;
    for (const StationResult& station : estimate.boxes[0].stations)
        for (const PlaceResult& module : station.places) {
            ++place;
            int number = 0, group = 1;
            for (const ChannelResult& channel : module.channels) {
                CHECK(channel.number == ++number);
                CHECK(channel.group >= group);
                group = channel.group;
                if (!channel.tag.empty()) tags.insert(channel.tag);
                if (!channel.device.empty()) places[channel.device].insert(place);
                ++(channel.spare ? spare : points)[channel.signal];
                CHECK(channel.signal.empty() == channel.fed_from.empty());
            }
            const PriceBook book = demo_book();
            int all = 0;
            for (const ChannelGroup& each : book.find(module.part)->groups) all += each.channels;
            CHECK(number == all);
        }
    CHECK(tags.size() == 20);
    CHECK(std::set<std::string>(tags.begin(), tags.end()).size() == 20);
    for (const PointResult& point : estimate.points) {
        CHECK(points[point.signal] == point.used);
        CHECK(spare[point.signal] == point.fitted - point.used);
    }
    // 24 channels in modules of 8 and 8 and 8: five devices of two or three points fit whole.
    for (const auto& [device, held] : places) CHECK(held.size() == 1);
    CHECK(places.size() == 5);
}
