// Spare in modules: trade-practice 3.2, 3.3 and scenario O11 (computed there): 20 % or two modules,
// whichever is greater.
#include <catch2/catch.hpp>

#include "pricing/panel/choose_panel.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Part platform_part(const std::string& key, const std::string& kind, double price) {
    Part part;
    part.key = key;
    part.kind = kind;
    part.platform = "test";
    part.list = Money::parse(number_text(price, 2));
    part.width_mm = 20;
    part.height_mm = 100;
    part.depth_mm = 75;
    part.own_a = 0.05;
    part.max_c = 60;
    return part;
}

Part module_part(const std::string& key, const std::string& groups, double price) {
    Part part = platform_part(key, "module", price);
    part.groups = *parse_groups(groups);
    part.places = 1;
    part.bus_ma = 10;
    return part;
}

/// The demo book with one platform: a controller without channels and these modules.
PriceBook book_of(const std::vector<Part>& modules, int places = 40) {
    std::vector<Part> parts = demo_parts();
    std::erase_if(parts, [](const Part& part) {
        return part.kind == "controller" || part.kind == "head" || part.kind == "feed" ||
               part.kind == "module";
    });
    Part controller = platform_part("T-CPU", "controller", 200);
    controller.places = places;
    controller.bus_ma = 10000;
    parts.push_back(controller);
    parts.insert(parts.end(), modules.begin(), modules.end());
    return PriceBook(parts, 1);
}

BidRequest lift_station(const std::string& spare) {
    return request_of(box_request(R"({"signal": "DI", "count": 18}, {"signal": "DO", "count": 7},
                                     {"signal": "AI_MA", "count": 2})",
                                  "", R"(, "spare": )" + spare));
}

constexpr const char* two_modules = R"({"percent": 20, "minimum_modules": 2, "kind": "wired"})";

PanelChoice chosen(const BidRequest& request, const PriceBook& book) {
    Work work;
    return choose_panel(request, request.boxes[0], book, starter_rules(), work);
}

int required_of(const PanelChoice& choice, const std::string& name) {
    for (const SignalDemand& signal : choice.search->facts.demand.signals)
        if (signal.signal == name) return signal.required;
    return -1;
}

int pieces_of(const PanelChoice& choice, const std::string& part) {
    int pieces = 0;
    for (const BillItem& item : choice.design->bill)
        if (item.part && item.part->key == part) pieces += static_cast<int>(item.quantity);
    return pieces;
}

} // namespace

// 18 + 2 × 16 = 50 in 4 modules, 7 + 2 × 16 = 39 in 3, 2 + 2 × 8 = 18 in 3: ten instead of four.
TEST_CASE("two spare modules: the counts of the published scenario") {
    const PriceBook book =
        book_of({module_part("T-DI16", "DI*16@0.004", 100), module_part("T-DO16", "DO*16@0.5", 120),
                 module_part("T-AI8", "AI_MA*8", 200)});
    const PanelChoice choice = chosen(lift_station(two_modules), book);
    REQUIRE(choice.design);
    CHECK(required_of(choice, "DI") == 50);
    CHECK(required_of(choice, "DO") == 39);
    CHECK(required_of(choice, "AI_MA") == 18);
    CHECK(pieces_of(choice, "T-DI16") == 4);
    CHECK(pieces_of(choice, "T-DO16") == 3);
    CHECK(pieces_of(choice, "T-AI8") == 3);
    const PanelChoice plain = chosen(lift_station(R"({"percent": 20, "kind": "wired"})"), book);
    REQUIRE(plain.design);
    CHECK(pieces_of(plain, "T-DI16") == 2);
    CHECK(pieces_of(plain, "T-DO16") == 1);
    CHECK(pieces_of(plain, "T-AI8") == 1);
}

TEST_CASE("the greater of percent, channels and modules counts") {
    const PriceBook book =
        book_of({module_part("T-DI16", "DI*16@0.004", 100), module_part("T-DO16", "DO*16@0.5", 120),
                 module_part("T-AI8", "AI_MA*8", 200)});
    const PanelChoice choice = chosen(
        lift_station(R"({"percent": {"default": 20, "DI": 300}, "minimum_channels": {"DO": 40},
                         "minimum_modules": {"default": 2, "AI_MA": 0}, "kind": "wired"})"),
        book);
    REQUIRE(choice.design);
    CHECK(required_of(choice, "DI") == 72);   // 18 × 4, above 18 + 32
    CHECK(required_of(choice, "DO") == 47);   // 7 + 40, above 7 + 32
    CHECK(required_of(choice, "AI_MA") == 3); // 2 × 1.2, none asked in modules
}

// Small modules cheap: two spare ones of 8, 18 + 16 = 34 in 5 modules. Large ones cheap: the signal
// rests on modules of 16, so two spare ones are 32, 18 + 32 = 50 in 4.
TEST_CASE("a spare module counts as the kind that carries most of the signal") {
    const auto book_at = [](double small, double large) {
        return book_of({module_part("T-DI8", "DI*8@0.004", small),
                        module_part("T-DI16", "DI*16@0.004", large)});
    };
    const auto di = [](const PriceBook& book) {
        return chosen(request_of(box_request(R"({"signal": "DI", "count": 18})", "",
                                             std::string(R"(, "spare": )") + two_modules)),
                      book);
    };
    const PriceBook small_cheap = book_at(10, 500);
    const PanelChoice small = di(small_cheap);
    REQUIRE(small.design);
    CHECK(required_of(small, "DI") == 34);
    CHECK(pieces_of(small, "T-DI8") == 5);
    const PriceBook large_cheap = book_at(500, 10);
    const PanelChoice large = di(large_cheap);
    REQUIRE(large.design);
    CHECK(required_of(large, "DI") == 50);
    CHECK(pieces_of(large, "T-DI16") == 4);
}

// Every split of small and large modules judged by hand: the cheapest that keeps the rule of the
// kind that carries more.
TEST_CASE("spare modules cost no more than any single kind of module") {
    Draws draws(77);
    for (int i = 0; i < 12; ++i) {
        const double small = draws.between(30, 90), large = draws.between(50, 160);
        const Part eight = module_part("T-DI8", "DI*8@0.004", small);
        const Part sixteen = module_part("T-DI16", "DI*16@0.004", large);
        const BidRequest request = request_of(box_request(
            R"({"signal": "DI", "count": )" + std::to_string(draws.between(1, 60)) + "}", "",
            std::string(R"(, "spare": )") + two_modules));
        const PanelChoice both = chosen(request, book_of({eight, sixteen}));
        REQUIRE(both.design);
        for (const Part& only : {eight, sixteen}) {
            const PanelChoice alone = chosen(request, book_of({only}));
            REQUIRE(alone.design);
            CHECK(both.design->direct_cost <= alone.design->direct_cost);
        }
    }
}

// 40 points in three modules of 16. 20 % of the places taken: 4 places give floor(400 / 120) = 3;
// 40 % of them: floor(400 / 140) = 2, too few. Two modules kept free: 5 places.
TEST_CASE("spare as free places keeps places and adds no channels") {
    const auto with = [](int places, const std::string& spare) {
        const PriceBook book = book_of({module_part("T-DI16", "DI*16@0.004", 100)}, places);
        return chosen(request_of(box_request(R"({"signal": "DI", "count": 40})", "",
                                             R"(, "spare": )" + spare)),
                      book);
    };
    const PanelChoice kept = with(4, R"({"percent": 20, "kind": "slot"})");
    REQUIRE(kept.design);
    CHECK(required_of(kept, "DI") == 40);
    CHECK_FALSE(with(4, R"({"percent": 40, "kind": "slot"})").design);
    CHECK_FALSE(with(3, R"({"percent": 20, "kind": "slot"})").design);
    const std::string free_modules = R"({"percent": 0, "minimum_modules": 2, "kind": "slot"})";
    CHECK_FALSE(with(4, free_modules).design);
    CHECK(with(5, free_modules).design);
}
