#include <catch2/catch.hpp>

#include "pricing/request/words.h"
#include "tests/pricing/request/starter_book.h"

namespace backplate {
namespace {

TEST_CASE("the nearest word by edits, case and separators apart") {
    const std::vector<std::string> keys{"title",          "client",     "enquiry",
                                        "margin_percent", "max_mm",     "UL 508A",
                                        "/^IP[0-9]+$/",   "altitude_m", "humidity_percent"};
    struct Row {
        const char* word;
        const char* nearest; // empty: none
    };
    // expected by hand: at most a third of the characters changed, or the beginning of the word
    const Row rows[] = {{"tittle", "title"},
                        {"tilte", "title"},
                        {"Client", "client"},
                        {"margin", "margin_percent"},
                        {"UL508A", "UL 508A"},
                        {"altitude", "altitude_m"},
                        {"humidity_pct", "humidity_percent"},
                        {"max-mm", "max_mm"},
                        {"colour", ""},
                        {"x", ""},
                        {"", ""}};
    for (const Row& row : rows) {
        INFO(row.word);
        CHECK(nearest_word(row.word, keys) == row.nearest);
    }
    CHECK(nearest_word(std::string(100000, 'a'), keys).empty());
}

TEST_CASE("words go with the signals that their rows name") {
    const Words words(starter_book(), Node());
    const std::string wiring = "boxes[].points[].wiring";
    CHECK(words.fit(wiring, "contact", "DI") == Words::Fit::yes);
    CHECK(words.fit(wiring, "6-wire", "DI") == Words::Fit::other_signal);
    CHECK(words.fit(wiring, "7-wire", "DI") == Words::Fit::unknown);
    CHECK(words.fit(std::string(signal_key), "DI", {}) == Words::Fit::yes);
    CHECK(words.fit("boxes[].choices.platforms", "any text", {}) == Words::Fit::yes);
    CHECK(words.of(wiring, "IO_LINK") == std::vector<std::string>{"3-wire", "5-wire"});
}

TEST_CASE("the wiring that each signal takes by default goes with it") {
    const Words words(starter_book(), Node());
    std::size_t judged = 0;
    for (const Signal& signal : starter_book().signals) {
        INFO(signal.key);
        CHECK(words.fit("boxes[].points[].wiring", signal.wiring, signal.key) == Words::Fit::yes);
        ++judged;
    }
    CHECK(judged >= 22);
}

} // namespace
} // namespace backplate
