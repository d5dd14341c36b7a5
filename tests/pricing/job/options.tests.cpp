// Options and alternatives on the demo price book. That an option is the difference of two whole
// runs is the contract's rule; the parts and prices are invented, the figures our own.
#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>
#include <set>

#include "pricing/job/alternatives.h"
#include "pricing/request/check_request.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

const std::string points =
    R"({"signal": "DI", "count": 20}, {"signal": "DO", "count": 10}, {"signal": "AI_MA", "count": 3})";

std::string with_options(const std::string& options) {
    return box_request(points, "",
                       R"(, "commercial": {"margin_percent": 20, "options": [)" + options + "]}");
}

std::string option(const std::string& title, const std::string& kind, const std::string& change) {
    return R"({"title": ")" + title + R"(", "kind": ")" + kind + R"(", "change": )" + change + "}";
}

const std::string stainless =
    option("Stainless", "instead", R"({"boxes": {"CP1": {"choices": {"material": "stainless"}}}})");
const std::string more =
    option("More inputs", "added", R"({"boxes": {"CP1": {"points": {"DI": {"count": 60}}}}})");
const std::string fewer =
    option("Without drawings", "omitted", R"({"scope": {"drawings": "excluded"}})");

Estimate estimate_of(const BidRequest& request) {
    const PriceBook book = demo_book();
    Work work;
    return price_job(request, book, starter_rules(), work);
}

const Finding* find(const Estimate& estimate, const std::string& code) {
    for (const Finding& finding : estimate.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

Alternatives alternatives_of(const std::string& json, std::size_t most = 100,
                             const PriceBook& book = demo_book()) {
    Work work;
    return find_alternatives(request_of(json), book, starter_rules(), most, work);
}

const Alternative* titled(const Alternatives& found, const std::string& title) {
    for (const Alternative& each : found.alternatives)
        if (each.title.starts_with(title)) return &each;
    return nullptr;
}

bool tried(const Alternatives& found, const std::string& title) {
    return titled(found, title) ||
           std::any_of(found.dropped.begin(), found.dropped.end(),
                       [&](const auto& each) { return each.title.starts_with(title); });
}

double volume_of(const Part& part) {
    return part.width_mm.value_or(0) * part.height_mm.value_or(0) * part.depth_mm.value_or(0);
}

} // namespace

TEST_CASE("an option is the difference of two whole runs and never inside the base") {
    const Estimate plain = estimate_of(request_of(with_options("")));
    const BidRequest request = request_of(with_options(stainless + ", " + more + ", " + fewer));
    const Estimate estimate = estimate_of(request);
    CHECK(estimate.price->price == plain.price->price);
    CHECK(estimate.bill.size() == plain.bill.size());
    REQUIRE(estimate.options.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        const OptionResult& result = estimate.options[i];
        const Estimate whole = estimate_of(*request.options[i].changed);
        CAPTURE(result.title);
        REQUIRE(result.difference);
        CHECK(result.price == whole.price->price);
        CHECK(result.difference->price == whole.price->price - plain.price->price);
    }
    CHECK(estimate.options[0].difference->price > Money());
    CHECK(estimate.options[1].difference->price > Money());
    CHECK(estimate.options[2].difference->price < Money());
    CHECK(estimate.options[2].difference->hours < Hours());
}

TEST_CASE("the offer names each option with its difference, and the basis holds it") {
    const Estimate estimate = estimate_of(request_of(with_options(more + ", " + fewer)));
    std::vector<std::string> said;
    for (const OfferText& text : estimate.offer_texts)
        if (text.section == "option" && text.rule.starts_with("words/")) said.push_back(text.text);
    REQUIRE(said.size() == 2);
    CHECK(said[0] == "More inputs, on top of the base: " +
                         estimate.options[0].difference->price.text(2) + " EUR more.");
    CHECK(said[1] == "Without drawings, left out of the base: " +
                         (-estimate.options[1].difference->price).text(2) + " EUR less.");
    int found = 0;
    for (const BasisEntry& entry : estimate.basis)
        if (entry.figure.starts_with("/options/")) ++found;
    CHECK(found == 2);
}

TEST_CASE("the client reads descriptions of parts, not their keys") {
    const Estimate estimate = estimate_of(request_of(
        with_options(option("VC-202 and QS-403, whichever fits", "added",
                            R"({"boxes": {"CP1": {"points": {"DI": {"count": 60}}}}})"))));
    REQUIRE(estimate.options.size() == 1);
    CHECK(estimate.options[0].title == "VC-202 and QS-403, whichever fits");
    CHECK(estimate.options[0].offered ==
          "Input module 16 x 24 V DC and Slice 16 inputs 24 V DC, whichever fits");
    const PriceBook book = demo_book();
    for (const OfferText& text : estimate.offer_texts)
        for (const Part& part : book.parts()) {
            CAPTURE(text.text, part.key);
            CHECK(text.text.find(part.key) == std::string::npos);
        }
}

TEST_CASE("an option that nothing builds has no price and says why") {
    const std::string nowhere =
        option("Another make", "instead",
               R"({"boxes": {"CP1": {"choices": {"platforms": ["nowhere"]}}}})");
    const Estimate estimate = estimate_of(request_of(with_options(nowhere)));
    CHECK(estimate.buildable);
    REQUIRE(estimate.options.size() == 1);
    CHECK_FALSE(estimate.options[0].buildable);
    CHECK_FALSE(estimate.options[0].price);
    CHECK_FALSE(estimate.options[0].difference);
    CHECK_THAT(estimate.options[0].limits, Catch::Contains("no controller of the platforms"));
    CHECK(find(estimate, "OPTION_NOT_BUILT"));
    CHECK_FALSE(find(estimate_of(request_of(with_options(more))), "OPTION_NOT_BUILT"));
}

TEST_CASE("alternatives are whole panels that their change takes") {
    const PriceBook book = demo_book();
    const Alternatives found = alternatives_of(box_request(points));
    REQUIRE(found.alternatives.size() >= 4);
    std::set<std::string> platforms;
    Money before;
    for (const Alternative& each : found.alternatives) {
        CAPTURE(each.title);
        Node changed = request_of(box_request(points)).sent;
        changed.find("boxes")->items[0].member("name") = Node::make_text("CP1");
        REQUIRE_FALSE(apply_change(changed, each.taken_by));
        const CheckedRequest taken = check_request(changed, starter_rules(), Date{20'000});
        REQUIRE(taken.request);
        Work work;
        const Estimate whole = price_job(*taken.request, book, starter_rules(), work);
        CHECK(whole.price->price == each.price);
        CHECK(each.difference->price == each.price - found.base.price->price);
        CHECK(each.price >= before);
        before = each.price;
        if (each.title.starts_with("Platform ")) platforms.insert(whole.systems[0].platform);
    }
    CHECK(platforms.size() == 3);
    CHECK_FALSE(platforms.contains(found.base.systems[0].platform));
    std::cout << "alternatives: " << found.alternatives.size() << " found, " << found.dropped.size()
              << " dropped\n";
}

TEST_CASE("no alternative equals the base or another, and every trial is accounted for") {
    const Alternatives all = alternatives_of(box_request(points));
    for (const DroppedAlternative& each : all.dropped) CHECK_FALSE(each.reason.empty());
    const Alternatives two = alternatives_of(box_request(points), 2);
    CHECK(two.alternatives.size() == 2);
    CHECK(two.alternatives.size() + two.dropped.size() ==
          all.alternatives.size() + all.dropped.size());
    for (std::size_t i = 0; i < 2; ++i)
        CHECK(two.alternatives[i].title == all.alternatives[i].title);
}

TEST_CASE("the cheapest panel of another platform is never cheaper than a proven base") {
    const Alternatives found = alternatives_of(box_request(points));
    REQUIRE(found.base.systems[0].proven_cheapest);
    for (const Alternative& each : found.alternatives)
        if (each.title.starts_with("Platform ")) CHECK(each.difference->price >= Money());
}

TEST_CASE("the smallest box, the soonest delivery, and what the others are good for") {
    const Alternatives found =
        alternatives_of(box_request(points, R"(, "choices": {"platforms": ["slice"]})"));
    const auto volume = [](const std::vector<BoxResult>& boxes) {
        const EnclosureResult& box = boxes.front().enclosures.front();
        return *box.width_mm * *box.height_mm * *box.depth_mm;
    };
    double smallest = volume(found.base.boxes);
    int soonest = 0, least_kinds = 0;
    for (const Alternative& each : found.alternatives) {
        smallest = std::min(smallest, volume(each.boxes));
        soonest = std::min(soonest, each.difference->lead_days.value_or(0));
        least_kinds = std::min(least_kinds, each.difference->part_kinds);
    }
    int judged = 0;
    for (const Alternative& each : found.alternatives) {
        CAPTURE(each.title, each.reason);
        const auto says = [&](const char* words) {
            return each.reason.find(words) != std::string::npos;
        };
        if (each.title.starts_with("Smallest box")) {
            ++judged;
            CHECK(volume(each.boxes) == smallest);
        }
        if (each.title == "Shortest delivery") {
            ++judged;
            CHECK(*each.difference->lead_days == soonest);
        }
        if (says("least volume")) CHECK(volume(each.boxes) == smallest);
        if (says("soonest of")) CHECK(*each.difference->lead_days == soonest);
        if (says("fewest kinds")) CHECK(each.difference->part_kinds == least_kinds);
        const PriceResult& price = *found.base.price;
        const Money apart = each.difference->price;
        CHECK(says("nearer to the base") ==
              (apart <= price.p80 - price.p50 && -apart <= price.p80 - price.p50));
    }
    for (const DroppedAlternative& each : found.dropped)
        if (each.title.starts_with("Smallest box") || each.title == "Shortest delivery") ++judged;
    CHECK(judged == 2);
}

// Against every smaller size of the book, one by one.
TEST_CASE("the smallest box is smaller than a cheap large one, and nothing smaller builds") {
    std::vector<Part> parts = demo_parts();
    for (Part& part : parts)
        if (part.key == "BE-1012") {
            part.list = *Money::parse("5.00");
            part.discounts.clear();
        }
    const PriceBook book(parts, 1);
    const Alternatives found = alternatives_of(box_request(points), 100, book);
    REQUIRE(found.base.boxes[0].enclosures[0].part == "BE-1012");
    const Alternative* smallest = titled(found, "Smallest box for CP1");
    REQUIRE(smallest);
    const double volume = volume_of(*book.find(smallest->boxes[0].enclosures[0].part));
    CHECK(volume < volume_of(*book.find("BE-1012")));
    int judged = 0;
    for (const Part* part : book.of_kind("enclosure")) {
        if (volume_of(*part) == 0 || volume_of(*part) >= volume) continue;
        ++judged;
        std::string others;
        for (const Part* other : book.of_kind("enclosure"))
            if (other != part) others += (others.empty() ? "\"" : ", \"") + other->key + '"';
        CAPTURE(part->key);
        Work work;
        const BidRequest only =
            request_of(box_request(points, R"(, "choices": {"exclude": [)" + others + "]}"));
        CHECK_FALSE(price_once(only, book, starter_rules(), work).buildable);
    }
    CHECK(judged > 0);
    std::cout << "smaller enclosures that nothing fits into: " << judged << std::endl;
}

TEST_CASE("what choices by hand cost, each kind on its own") {
    const Alternatives plain = alternatives_of(box_request(points));
    for (const char* title : {"Nothing kept", "Nothing left out", "Any maker", "Any stock"})
        CHECK_FALSE(tried(plain, title));
    const std::string controller = plain.base.boxes[0].modules[0].part;
    const std::pair<const char*, std::string> cases[] = {
        {"Nothing kept", R"("keep": [{"part": "QS-425", "quantity": 2}])"},
        {"Nothing left out", R"("exclude": [")" + controller + "\"]"}};
    for (const auto& [title, choice] : cases) {
        CAPTURE(title);
        const Alternatives found =
            alternatives_of(box_request(points, R"(, "choices": {)" + choice + "}"));
        const Alternative* lifted = titled(found, title);
        REQUIRE(lifted);
        CHECK(lifted->difference->price < Money());
        CHECK(lifted->price == plain.base.price->price);
    }
}

TEST_CASE("cooler modules and fewer kinds of them") {
    const Alternatives found = alternatives_of(box_request(points));
    CHECK(tried(found, "Cooler modules"));
    if (const Alternative* cooler = titled(found, "Cooler modules"))
        CHECK(*cooler->difference->inside_w < 0);
    const Alternatives many = alternatives_of(box_request(points_text({{"DI", 35}, {"DO", 19}})));
    CHECK(tried(many, "Fewer kinds of modules"));
    if (const Alternative* fewer = titled(many, "Fewer kinds of modules"))
        CHECK(fewer->difference->part_kinds < 0);
}

TEST_CASE("a job that no parting helps has no alternatives") {
    const Alternatives found =
        alternatives_of(box_request(points, R"(, "choices": {"platforms": ["nowhere"]})"));
    CHECK_FALSE(found.base.buildable);
    CHECK(found.alternatives.empty());
    CHECK(limits_of(found.base) == "no controller of the platforms allowed");
}
