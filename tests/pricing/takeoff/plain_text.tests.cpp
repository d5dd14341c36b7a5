#include <catch2/catch.hpp>

#include "pricing/takeoff/lexicon.h"
#include "pricing/takeoff/plain_text.h"

using namespace backplate;

namespace {

/// Pairs a reader takes as the same or not the same. Common practice, no source.
struct Pair {
    const char *spelling, *text;
    bool stands_in;
};

const std::vector<Pair> pairs = {{"DI", "D.I.", true},
                                 {"DI", "d/i", true},
                                 {"DI", "ＤＩ", true},
                                 {"DI", "24VDC DI", true},
                                 {"DI", "Digital", false},
                                 {"DI", "DIP", false},
                                 {"4-20 mA", "4…20mA", true},
                                 {"4-20 mA", "4÷20 mA", true},
                                 {"4-20 mA", "4～20mA", true},
                                 {"4-20 mA", "4\u00A0–\u00A020 mA / HART", true},
                                 {"4-20 mA", "420 mA", false},
                                 {"4-20 mA", "4.20 mA", false},
                                 {"4-20 mA", "4-20 mm", false},
                                 {"±10 V", "+/-10V", true},
                                 {"0-10 V", "0,10 V", false},
                                 {"Entrée", "ENTREE", true},
                                 {"Дискретный вход", "дискретный ВХОД", true},
                                 {"数字量输入", "数字量输入模块", true},
                                 {"# VAC", "110/230 VAC", true},
                                 {"# VAC", "VAC", false},
                                 {"Pt100", "Pt100Ω 3-wire", true},
                                 {"Pt100", "Pt1000", false},
                                 {"%I", "%I0.0", true},
                                 {"%I", "%IW64", false}};

} // namespace

TEST_CASE("spellings are found whatever dots, dashes, blanks and case") {
    for (const Pair& pair : pairs) {
        INFO(pair.spelling << " in " << pair.text);
        const Lexicon lexicon({{"row", "meaning", pair.spelling}});
        CHECK(lexicon.says(squeeze(pair.text), "meaning") == pair.stands_in);
    }
}

TEST_CASE("cells are cleaned of what spreadsheets and editors add") {
    CHECK(clean_text("\u00A0 RP1\t\r\n x ") == "RP1 x");
    CHECK(clean_text("'0012") == "0012");
    CHECK(clean_text("=\"0013\"") == "0013");
    CHECK(clean_text("=HYPERLINK(\"a\")") == "=HYPERLINK(\"a\")");
    CHECK(clean_text("\u202Egnp.exe") == "gnp.exe");
    CHECK(clean_text("\xE2\x82") == "\xE2\x82");
}

TEST_CASE("the longer spelling of one prefix hides the shorter within it") {
    const Lexicon lexicon({{"1", "bus:MODBUS", "Modbus"}, {"2", "bus:MODBUS_TCP", "Modbus TCP"}});
    CHECK(lexicon.words_said(squeeze("Modbus TCP"), "bus") == std::set<std::string>{"MODBUS_TCP"});
    CHECK(lexicon.words_said(squeeze("modbus"), "bus") == std::set<std::string>{"MODBUS"});
}
