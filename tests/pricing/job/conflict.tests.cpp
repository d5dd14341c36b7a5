// Limits that cannot be met together. The search is judged against every set of limits tried one by
// one on made conflicts; what it says of a request against whole runs of that request with the
// limits lifted. Requests and prices are invented.
#include <catch2/catch.hpp>

#include <iostream>

#include "pricing/job/conflict_search.h"
#include "pricing/job/request_limits.h"
#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

using Places = std::vector<std::size_t>;

Imposed imposed_of(std::size_t limits, std::size_t bits) {
    Imposed imposed(limits);
    for (std::size_t i = 0; i < limits; ++i) imposed[i] = (bits >> i & 1) != 0;
    return imposed;
}

Imposed only(std::size_t limits, const Places& places) {
    Imposed imposed(limits, false);
    for (const std::size_t each : places) imposed[each] = true;
    return imposed;
}

/// Sets of limits of which none may be met in full.
struct Made {
    std::size_t limits = 0;
    std::vector<Places> conflicts;

    bool builds(const Imposed& imposed) const {
        return std::none_of(conflicts.begin(), conflicts.end(), [&](const Places& each) {
            return std::all_of(each.begin(), each.end(), [&](std::size_t i) { return imposed[i]; });
        });
    }

    std::size_t fewest() const {
        std::size_t best = limits + 1;
        for (std::size_t bits = 0; bits < std::size_t{1} << limits; ++bits) {
            const Imposed imposed = imposed_of(limits, bits);
            if (builds(imposed)) continue;
            best = std::min(
                best, static_cast<std::size_t>(std::count(imposed.begin(), imposed.end(), true)));
        }
        return best;
    }
};

Made made(std::uint64_t seed) {
    Draws draws(seed);
    Made result;
    result.limits = static_cast<std::size_t>(draws.between(1, 9));
    const int most = static_cast<int>(result.limits) - 1;
    for (int i = draws.between(1, 4); i > 0; --i) {
        Places conflict;
        for (int k = draws.between(1, 4); k > 0; --k)
            conflict.push_back(static_cast<std::size_t>(draws.between(0, most)));
        result.conflicts.push_back(std::move(conflict));
    }
    return result;
}

std::string param(const Estimate& estimate, const std::string& wanted) {
    for (const Finding& finding : estimate.findings)
        if (finding.code == "LIMITS_TOGETHER")
            for (const auto& [name, value] : finding.params)
                if (name == wanted) return value;
    return {};
}

Estimate estimate_of(const BidRequest& request, const PriceBook& book) {
    Work work;
    return price_job(request, book, starter_rules(), work);
}

std::string said(const std::string& json) {
    const PriceBook book = demo_book();
    return param(estimate_of(request_of(json), book), "conflict");
}

const std::string points = points_text({{"DI", 24}, {"DO", 10}});

std::string site(const std::string& members, const std::string& more = {}) {
    return box_request(points, R"(, "site": {)" + members + "}" + more);
}

/// Whole runs of a request under some of its limits.
class Runs {
public:
    explicit Runs(const std::string& json)
        : book_(demo_book()), request_(request_of(json)),
          limits_(request_limits(request_, {0}, starter_rules())) {}

    bool builds(const Imposed& imposed) const {
        BidRequest job = request_;
        for (std::size_t i = 0; i < limits_.size(); ++i)
            if (!imposed[i]) limits_[i].lift(job);
        Work work;
        return price_once(job, book_, starter_rules(), work).buildable;
    }

    Conflict find() const {
        return smallest_conflict(
            limits_.size(), [&](const Imposed& imposed) { return builds(imposed); }, 1000);
    }

    const std::vector<RequestLimit>& limits() const { return limits_; }
    const BidRequest& request() const { return request_; }

private:
    PriceBook book_;
    BidRequest request_;
    std::vector<RequestLimit> limits_;
};

} // namespace

TEST_CASE("the set found has as few limits as any that cannot be met") {
    int alone = 0, runs = 0;
    for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        const Made job = made(seed);
        const Conflict found = smallest_conflict(
            job.limits, [&](const Imposed& imposed) { return job.builds(imposed); }, 100000);
        REQUIRE_FALSE(found.without_any);
        REQUIRE(found.smallest);
        REQUIRE(found.together.size() == job.fewest());
        REQUIRE_FALSE(job.builds(only(job.limits, found.together)));
        for (std::size_t i = 0; i < job.limits; ++i) {
            Imposed others(job.limits, true);
            others[i] = false;
            const bool named =
                std::find(found.alone.begin(), found.alone.end(), i) != found.alone.end();
            REQUIRE(job.builds(others) == named);
        }
        Imposed held(job.limits, true);
        for (const std::size_t each : found.give_up) held[each] = false;
        if (!found.give_up.empty()) REQUIRE(job.builds(held));
        alone += found.alone.empty() ? 0 : 1;
        runs += found.runs;
    }
    std::cout << "made conflicts: 2000 judged, " << alone << " with a limit that is enough, "
              << runs << " questions\n";
}

TEST_CASE("where the questions run out no limit of the set is idle") {
    int unproven = 0;
    for (std::uint64_t seed = 1; seed <= 500; ++seed) {
        CAPTURE(seed);
        const Made job = made(seed);
        const Conflict found = smallest_conflict(
            job.limits, [&](const Imposed& imposed) { return job.builds(imposed); }, 1);
        REQUIRE_FALSE(job.builds(only(job.limits, found.together)));
        for (const std::size_t each : found.together) {
            Imposed rest = only(job.limits, found.together);
            rest[each] = false;
            REQUIRE(job.builds(rest));
        }
        unproven += found.smallest ? 0 : 1;
    }
    CHECK(unproven > 50);
}

TEST_CASE("nothing builds even without limits, and no limit at all") {
    const auto never = [](const Imposed&) { return false; };
    CHECK(smallest_conflict(4, never, 100).without_any);
    CHECK(smallest_conflict(4, never, 100).runs == 1);
    CHECK(smallest_conflict(0, never, 100).without_any);
}

TEST_CASE("one, two and three limits of a request") {
    CHECK(said(site(R"("max_mm": {"width": 200})")) ==
          "a width of at most 200 mm cannot be met; without it a panel can be built");
    CHECK(said(box_request(
              points, R"(, "choices": {"platforms": ["slice"], "keep": [{"part": "VC-101"}]})")) ==
          "platform slice and keeping VC-101 cannot be met together; without any one of them a "
          "panel can be built");
    CHECK(said(site(R"("ambient_c": [5, 55])", R"(, "choices": {"cooling": "sealed"})")) ==
          "cooling: sealed and 55 °C outside cannot be met together; without any one of them a "
          "panel can be built");
    const std::string three = said(box_request(
        points,
        R"(, "site": {"max_mm": {"width": 600, "height": 800}}, "choices": {"room_percent": 100})",
        R"(, "spare": {"percent": 100})"));
    CHECK(three.starts_with("a width of at most 600 mm, a height of at most 800 mm and 100 % free "
                            "room cannot be met together"));
}

TEST_CASE("inches, two boxes of a system, and where the finding points") {
    const std::string inch = box_request(points, R"(, "site": {"max_mm": {"width": 254}})",
                                         R"(, "job": {"units": "inch"})");
    CHECK(said(inch).starts_with("a width of at most 10.00 in cannot be met"));
    const std::string led =
        R"({"format": "backplate-request/1", "boxes": [{"name": "A", "points": [)" + points +
        R"(]}, {"name": "B", "controlled_by": "A", "site": {"max_mm": {"width": 150}}, "points": [)" +
        points + "]}]}";
    CHECK(said(led) ==
          "a width of at most 150 mm (B) cannot be met; without it a panel can be built");
    const PriceBook book = demo_book();
    const Estimate estimate = estimate_of(request_of(led), book);
    for (const Finding& finding : estimate.findings)
        if (finding.code == "LIMITS_TOGETHER") CHECK(finding.where == "/boxes/1/site/max_mm/width");
    CHECK(param(estimate, "fields") == "/boxes/1/site/max_mm/width");
}

TEST_CASE("a request that no limit keeps from being built says so") {
    const std::string text = said(box_request(R"({"signal": "DI", "count": 100000})"));
    CHECK(text.starts_with("even with every limit of the request lifted nothing builds it: "));
}

TEST_CASE("what is said of a request holds in whole runs") {
    int judged = 0;
    for (const std::string& json :
         {site(R"("max_mm": {"width": 400})"), site(R"("max_mm": {"width": 500, "height": 500})"),
          site(R"("ambient_c": [5, 55])", R"(, "choices": {"cooling": "sealed"})"),
          box_request(points_text({{"DI", 8}}),
                      R"(, "choices": {"platforms": ["slice"], "keep": [{"part": "VC-101"}]})")}) {
        const Runs runs(json);
        CAPTURE(json);
        const std::size_t count = runs.limits().size();
        const Conflict found = runs.find();
        REQUIRE_FALSE(found.together.empty());
        CHECK(found.smallest);
        CHECK_FALSE(runs.builds(Imposed(count, true)));
        CHECK_FALSE(runs.builds(only(count, found.together)));
        for (const std::size_t each : found.together) {
            Imposed rest = only(count, found.together);
            rest[each] = false;
            CHECK(runs.builds(rest));
        }
        Imposed held(count, true);
        for (const std::size_t each : found.give_up) held[each] = false;
        CHECK(runs.builds(held));
        for (const std::size_t each : found.alone) {
            Imposed others(count, true);
            others[each] = false;
            CHECK(runs.builds(others));
        }
        ++judged;
    }
    CHECK(judged == 4);
}

TEST_CASE("every limit has its own field and changes the request") {
    const Runs runs(box_request(
        R"({"signal": "AI_MA", "count": 2, "needs": {"isolated": true, "hart": true}})",
        R"(, "site": {"max_mm": {"width": 800, "height": 900, "depth": 300}, "approvals": ["UL 508A"],
            "dust": "heavy", "corrosion": "salt", "place": "outdoor_sun", "ambient_c": [-20, 45],
            "fault_current_ka": 5, "supply": {"feeds": 2}},
          "choices": {"cooling": "sealed", "material": "stainless", "inside_max_c": 50,
            "in_stock_only": true, "redundant_supply": true, "redundant_controller": true,
            "future_load_percent": 10, "backup_minutes": 5, "platforms": ["slice"],
            "exclude": ["QS-401"], "replace": [{"part": "QS-402", "by": "QS-403"}]})",
        R"(, "spare": {"percent": 10, "minimum_channels": 1, "minimum_modules": 1})"));
    std::vector<std::string> fields;
    for (const RequestLimit& limit : runs.limits()) {
        CAPTURE(limit.text);
        CHECK_FALSE(limit.text.empty());
        fields.push_back(limit.where + limit.text);
        BidRequest lifted = runs.request();
        limit.lift(lifted);
        const auto left = request_limits(lifted, {0}, starter_rules());
        CHECK(left.size() + 1 == runs.limits().size());
        CHECK(std::none_of(left.begin(), left.end(),
                           [&](const RequestLimit& each) { return each.text == limit.text; }));
    }
    std::sort(fields.begin(), fields.end());
    CHECK(std::adjacent_find(fields.begin(), fields.end()) == fields.end());
    CHECK(fields.size() == 31);
}

TEST_CASE("no search without its row, none where it is built") {
    const PriceBook book = demo_book();
    RuleBook rules = starter_rules();
    rules.conflicts.most_runs.reset();
    Work work;
    const BidRequest request = request_of(site(R"("max_mm": {"width": 200})"));
    CHECK(param(price_job(request, book, rules, work), "conflict").empty());
    CHECK(said(box_request(points)).empty());
}

TEST_CASE("the fewest parts that do are found as by trying every number") {
    int judged = 0;
    for (int most = 0; most <= 40; ++most)
        for (int needed = 1; needed <= 42; ++needed) {
            CAPTURE(most, needed);
            bool fewer_asked = false;
            const auto found = fewest_parts(most, [&](int parts) {
                fewer_asked = fewer_asked || parts == needed - 1;
                return parts >= needed;
            });
            const int wanted = std::max(2, needed);
            REQUIRE(found.has_value() == (most >= wanted));
            if (found) REQUIRE(*found == wanted);
            if (found && wanted > 2) REQUIRE(fewer_asked);
            ++judged;
        }
    std::cout << judged << " parted numbers judged\n";
}

TEST_CASE("points that no single box within the size holds are parted over as few boxes as do") {
    const auto job = [](int di, int out) {
        return box_request(points_text({{"DI", di}, {"DO", out}}),
                           R"(, "site": {"max_mm": {"width": 600, "height": 800, "depth": 300}})");
    };
    const std::string text = said(job(200, 90));
    CAPTURE(text);
    const auto at = text.find("parted evenly over ");
    REQUIRE(at != std::string::npos);
    const int boxes = std::stoi(text.substr(at + 19));
    REQUIRE(boxes >= 3);
    const auto share = [](int count, int of) { return (count + of - 1) / of; };
    const auto builds = [&](int of) {
        const PriceBook book = demo_book();
        Work work;
        return price_once(request_of(job(share(200, of), share(90, of))), book, starter_rules(),
                          work)
            .buildable;
    };
    CHECK(builds(boxes));
    CHECK_FALSE(builds(boxes - 1));
    CHECK(text.find("at most " + std::to_string(share(200, boxes)) + " DI and " +
                    std::to_string(share(90, boxes)) + " DO; over " + std::to_string(boxes - 1) +
                    " they cannot") != std::string::npos);
    CHECK(said(site(R"("max_mm": {"width": 200})")).find("parted") == std::string::npos);
}
