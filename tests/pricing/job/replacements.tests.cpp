// A part in the place of another one on the demo price book: each price against a run of its own.
#include <catch2/catch.hpp>

#include <vector>

#include "pricing/job/replacements.h"
#include "pricing/request/check_request.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

const std::string job = box_request(
    R"({"signal": "DI", "count": 40}, {"signal": "DO", "count": 20}, {"signal": "AI_MA", "count": 8})");

Node tree() { return parse_json("sample", job).root; }

Estimate estimate_of(const Node& request, const PriceBook& book) {
    Work work;
    CheckedRequest checked = check_request(request, starter_rules(), Date::of(2026, 11, 24));
    REQUIRE(checked.request);
    return price_job(*checked.request, book, starter_rules(), work);
}

std::vector<Replacement> found_for(const std::string& part, const Estimate& base,
                                   const PriceBook& book) {
    std::vector<Replacement> all;
    Work work;
    find_replacements(tree(), base, 0, part, book, starter_rules(), work,
                      [&](const Replacement& each) { all.push_back(each); });
    return all;
}

} // namespace

TEST_CASE("what a replacement costs is what the job costs with it") {
    const PriceBook book = demo_book();
    const Estimate base = estimate_of(tree(), book);
    REQUIRE(base.buildable);
    int built = 0;
    for (const auto& part :
         {base.boxes[0].modules.front().part, base.boxes[0].supplies.front().part}) {
        for (const Replacement& each : found_for(part, base, book)) {
            CAPTURE(part, each.part, each.limits);
            const Estimate other = estimate_of(with_replacement(tree(), 0, part, each.part), book);
            CHECK(other.buildable == each.buildable);
            CHECK(each.buildable == each.limits.empty());
            if (!each.buildable) continue;
            CHECK(other.price->price == each.price);
            CHECK(each.difference.price == each.price - base.price->price);
            CHECK(book.find(each.part)->kind == book.find(part)->kind);
            ++built;
        }
    }
    CHECK(built >= 3);
}

TEST_CASE("parts that the engine does not choose have no replacement") {
    const PriceBook book = demo_book();
    const Estimate base = estimate_of(tree(), book);
    CHECK(found_for("NOT-THERE", base, book).empty());
    for (const Part& part : book.parts())
        if (part.kind == "device") CHECK(found_for(part.key, base, book).empty());
}

TEST_CASE("a replacement of a replacement is one choice, and back again none") {
    const Node once = with_replacement(tree(), 0, "A", "B");
    CHECK(at_pointer(once, "/boxes/0/choices/replace/0/by")->text == "B");
    const Node twice = with_replacement(once, 0, "B", "C");
    CHECK(at_pointer(twice, "/boxes/0/choices/replace")->items.size() == 1);
    CHECK(at_pointer(twice, "/boxes/0/choices/replace/0/part")->text == "A");
    CHECK(at_pointer(twice, "/boxes/0/choices/replace/0/by")->text == "C");
    const Node back = with_replacement(twice, 0, "C", "A");
    CHECK_FALSE(at_pointer(back, "/boxes/0/choices/replace"));
    CHECK(at_pointer(with_replacement(tree(), 5, "A", "B"), "/boxes")->items.size() == 1);
}
