#include <catch2/catch.hpp>

#include "pricing/takeoff/compare_lists.h"
#include "pricing/takeoff/propose_assemblies.h"
#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;
using tests::take_off_text;
using Is = PointChange::Is;

namespace {

const std::string heading = "Tag,Description,Type,Signal,Panel,Qty\n";

ListChanges changes(const std::string& before, const std::string& after) {
    return compare_lists(take_off_text(heading + before), take_off_text(heading + after));
}

} // namespace

TEST_CASE("a revision says what came, went, changed and moved") {
    const auto found = changes("A-1,a,DI,24 VDC,P,\nA-2,b,DI,24 VDC,P,\nA-3,c,DI,24 VDC,P,\n"
                               "A-4,d,DI,24 VDC,P,\n",
                               "A-3,c,DI,24 VDC,Q,\na-1 ,other words,DI,24 VDC,p,\n"
                               "A-2,b,DO,24 VDC,P,\nA-5,e,DO,relay,Q,\n");
    REQUIRE(found.changes.size() == 4);
    CHECK(found.changes[0].is == Is::moved);
    CHECK(found.changes[0].after.tag == "A-3");
    CHECK(found.changes[1].is == Is::changed);
    CHECK(found.changes[1].before.signal == "DI");
    CHECK(found.changes[1].after.signal == "DO");
    CHECK(found.changes[2].is == Is::added);
    CHECK(found.changes[2].after.row == 5);
    CHECK(found.changes[3].is == Is::removed);
    CHECK(found.changes[3].before.tag == "A-4");
    CHECK(found.before == PanelCounts{{"P", {{"DI", 4}}}});
}

TEST_CASE("points of one tag find their nearest partners") {
    const auto found = changes("M-1,run,DI,24 VDC,P,\nM-1,start,DO,24 VDC,P,\n",
                               "M-1,start,DO,24 VDC,P,\nM-1,run,DI,24 VDC,P,\n"
                               "M-1,trip,DI,24 VDC,P,\n");
    REQUIRE(found.changes.size() == 1);
    CHECK(found.changes[0].is == Is::added);
    CHECK(found.count_of(Is::added) == 1);
}

TEST_CASE("quantities and points without a tag are compared by their number") {
    const auto more = changes("A-1,a,DI,24 VDC,P,4\n", "A-1,a,DI,24 VDC,P,6\n");
    REQUIRE(more.changes.size() == 1);
    CHECK(more.count_of(Is::added) == 2);
    const auto bare = changes(",,DI,24 VDC,P,4\n", ",,DI,24 VDC,P,1\n,,DO,24 VDC,P,2\n");
    CHECK(bare.count_of(Is::removed) == 3);
    CHECK(bare.count_of(Is::added) == 2);
    CHECK(bare.count_of(Is::changed) == 0);
    CHECK(changes("A-1,a,DI,24 VDC,P,\n", "A-1,a,DI,24 VDC,P,\n").changes.empty());
}

TEST_CASE("tags whose points are those of an assembly are proposed as such") {
    RuleBook rules = tests::starter_rules();
    const auto row = [&](const char* assembly, const char* signal, int count) {
        AssemblyRow& each = rules.assemblies.emplace_back();
        each.assembly = assembly;
        each.brings = AssemblyRow::Brings::points;
        each.signal = signal;
        each.count.value = {count, 0};
    };
    row("motor", "DO", 1);
    row("motor", "DI", 2);
    row("valve", "DI", 2);
    row("valve", "DO", 1);
    row("lamp", "DO", 1);
    const Takeoff takeoff = take_off_text(heading + "M-1,run,DI,24 VDC,P,\nM-1,trip,DI,24 VDC,P,\n"
                                                    "M-1,start,DO,24 VDC,P,\nM-2.R,,DI,24 VDC,P,\n"
                                                    "M-2.T,,DI,24 VDC,P,\nM-2.S,,DO,24 VDC,P,\n"
                                                    "H-1,horn,DO,24 VDC,P,\n");
    const auto proposed = propose_assemblies(takeoff, rules);
    REQUIRE(proposed.size() == 1);
    CHECK(proposed[0].assemblies == std::vector<std::string>{"motor", "valve"});
    CHECK(proposed[0].tags == std::vector<std::string>{"M-1", "M-2"});
    CHECK(proposed[0].panel == "P");
}
