#include "pricing/mix/accepts.h"

#include <catch2/catch.hpp>

using namespace backplate;

namespace {

struct Row {
    const char* group; ///< signals*channels@channel_a/common_a + isolated + hart
    const char* signal;
    double amps;
    bool switched, isolated, hart;
    int channels;
};

/// electrical-facts 5: check the channel and the group total. Figures: computed by hand.
constexpr Row rows[] = {
    {"DI*8@0.004", "DI", 0, false, false, false, 8},
    {"DI*8@0.004", "DO", 0, false, false, false, 0},
    {"DI*8@0.004", "DX", 0, false, false, false, 0},
    {"DI|CNT*8@0.004", "CNT", 0, false, false, false, 8},
    {"DI*8@0.004", "DI", 0.015, false, false, false, 8}, // a sensor's own current, not switched
    {"DO*8@0.5/4", "DO", 0.5, true, false, false, 8},
    {"DO*8@0.5/4", "DO", 0.5001, true, false, false, 0},
    {"DO*8@2/8", "DO", 2, true, false, false, 4},
    {"DO*8@2/8", "DO", 1.1, true, false, false, 7},
    {"DO*8@2/8", "DO", 0.1, true, false, false, 8},
    {"DO*8@2", "DO", 2, true, false, false, 8},
    {"DO*8@2/1", "DO", 2, true, false, false, 0},
    {"DO*10@0.3/0.9", "DO", 0.3, true, false, false, 3}, // 0.9 ÷ 0.3 is 3 in decimals
    {"DO*8@0.5/4", "DO", 0, true, false, false, 8},
    {"AI_MA*4@0.025", "AI_MA", 0, false, true, false, 0},
    {"AI_MA*4@0.025+isolated", "AI_MA", 0, false, true, false, 4},
    {"AI_MA*4@0.025+isolated", "AI_MA", 0, false, false, false, 4},
    {"AI_MA*4@0.025", "AI_MA", 0, false, false, true, 0},
    {"AI_MA*4@0.025+hart", "AI_MA", 0, false, false, true, 4},
    {"AI_MA*4@0.025+hart", "AI_MA", 0, false, true, true, 0},
    {"AI_MA*4@0.025+isolated+hart", "AI_MA", 0, false, true, true, 4},
};

} // namespace

TEST_CASE("channels that a group may use for a line") {
    int judged = 0;
    for (const Row& row : rows) {
        CAPTURE(row.group, row.signal, row.amps);
        const auto groups = parse_groups(row.group);
        REQUIRE(groups);
        MixLine line;
        line.signal = row.signal;
        line.amps = row.amps;
        line.switched = row.switched;
        line.isolated = row.isolated;
        line.hart = row.hart;
        CHECK(accepts(groups->front(), line) == row.channels);
        ++judged;
    }
    CHECK(judged == 21);
}
