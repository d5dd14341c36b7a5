#include <catch2/catch.hpp>

#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;

namespace {

struct Kind {
    const char *type, *electrics, *address;
    SignalCounts points; ///< none: a question
    const char* reason = "";
};

/// Spellings of published lists and of the trade; the signals are those a wireman would fit.
/// Common practice, no source.
const std::vector<Kind> kinds = {{"Digital Input", "24 VDC", "", {{"DI", 1}}},
                                 {"TOR entrée", "contact sec", "", {{"DI", 1}}},
                                 {"Дискретный вход", "", "", {{"DI", 1}}},
                                 {"DI", "230 V AC", "", {{"DI_AC", 1}}},
                                 {"DI", "NAMUR", "", {{"DI_NAMUR", 1}}},
                                 {"DI", "NPN 3-wire", "", {{"DI_NPN", 1}}},
                                 {"F-DI", "24 VDC", "", {{"DI_SAFE", 1}}},
                                 {"DI Safety", "24VDC", "", {{"DI_SAFE", 1}}},
                                 {"DO", "24VDC", "", {{"DO", 1}}},
                                 {"DO", "relay, 230 VAC 2 A", "", {{"DO_RELAY", 1}}},
                                 {"24VDC Relay", "", "", {{"DO_RELAY", 1}}},
                                 {"DO", "triac 230 V AC", "", {{"DO_AC", 1}}},
                                 {"AI", "Pt100 with head transmitter, 4-20 mA", "", {{"AI_MA", 1}}},
                                 {"RTD", "Pt100 3-wire", "", {{"RTD", 1}}},
                                 {"AE", "Thermoelement Typ K", "", {{"TC", 1}}},
                                 {"AI", "NTC 10k", "", {{"AI_R", 1}}},
                                 {"", "RTD Pt100", "", {{"RTD", 1}}},
                                 {"AO", "±10 V", "", {{"AO_V", 1}}},
                                 {"Bool", "", "%IX0.3", {{"DI", 1}}},
                                 {"Int", "4-20 mA", "%IW64", {{"AI_MA", 1}}},
                                 {"IO-Link", "", "", {{"IO_LINK", 1}}},
                                 {"2DI+1DO", "24VDC", "", {{"DI", 2}, {"DO", 1}}},
                                 {"DI(2) DO(1)", "24VDC", "", {{"DI", 2}, {"DO", 1}}},
                                 {"2xDI / 1xDO", "24VDC", "", {{"DI", 2}, {"DO", 1}}},
                                 {"4 x RTD", "", "", {{"RTD", 4}}},
                                 {"AI", "", "", {}, "ai_range_missing"},
                                 {"AO", "24 VDC", "", {}, "ao_range_missing"},
                                 {"AI", "4-20 mA or 0-10 V", "", {}, "contradiction"},
                                 {"AO", "relay", "", {}, "contradiction"},
                                 {"DI", "4-20 mA", "", {}, "contradiction"},
                                 {"DI", "110 V DC", "", {}, "contradiction"},
                                 {"DO", "230 V AC", "", {}, "do_mains"},
                                 {"AI", "load cell 2 mV/V", "", {}, "load_cell"},
                                 {"DI Safety", "24VDC Dual channel", "", {}, "dual_channel"},
                                 {"", "24VDC", "", {}, "type_blank"},
                                 {"?", "relay", "", {}, "type_blank"},
                                 {"Flap", "24VDC", "", {}, "type_unknown"},
                                 {"I/O", "24VDC", "", {}, "io_unspecific"},
                                 {"E/A", "4-20 mA", "", {}, "io_unspecific"}};

Verdict verdict_of(const char* type, const char* electrics, const char* address) {
    return classify({type, electrics, address}, Lexicon(tests::starter_rules().spellings));
}

} // namespace

TEST_CASE("type and electrics give the signal or a question") {
    for (const Kind& kind : kinds) {
        INFO(kind.type << " | " << kind.electrics << " | " << kind.address);
        const Verdict verdict = verdict_of(kind.type, kind.electrics, kind.address);
        CHECK(verdict.reason == kind.reason);
        const bool asked = kind.points.empty();
        CHECK((verdict.is == Verdict::Is::question) == asked);
        if (!asked) CHECK(verdict.signals == kind.points);
    }
}

TEST_CASE("a question proposes only what practice has a usual answer for") {
    CHECK(verdict_of("AI", "", "").signals == SignalCounts{{"AI_MA", 1}});
    CHECK(verdict_of("DO", "230 V AC", "").signals == SignalCounts{{"DO_RELAY", 1}});
    CHECK(verdict_of("DI Safety", "dual channel", "").signals == SignalCounts{{"DI_SAFE", 2}});
    CHECK_FALSE(verdict_of("AO", "relay", "").proposes);
    CHECK_FALSE(verdict_of("", "24 VDC", "").proposes);
}

TEST_CASE("none of a kind is no point and no question") {
    for (const char* type : {"0 DI", "0 x AI", "0DI+0DO"}) {
        const Verdict verdict = verdict_of(type, "", "");
        CHECK(verdict.is == Verdict::Is::point);
        CHECK(verdict.signals.empty());
    }
    CHECK(verdict_of("2DI+0DO", "", "").signals == SignalCounts{{"DI", 2}});
}

TEST_CASE("bus, soft and local rows are no points") {
    CHECK(verdict_of("DI AS-i", "AS-i", "").bus == "AS_I");
    CHECK(verdict_of("AI", "Profibus PA", "").bus == "PROFIBUS_PA");
    CHECK(verdict_of("Soft Link", "", "").is == Verdict::Is::soft);
    CHECK(verdict_of("Bool", "", "%M12.3").is == Verdict::Is::soft);
    CHECK(verdict_of("N/A", "", "").is == Verdict::Is::not_wired);
}
