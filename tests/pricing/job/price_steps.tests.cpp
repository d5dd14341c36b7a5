// Further points of a signal and the steps of the price that they bring. Figures by hand where
// said; else own output judged by properties: prices against whole runs of requests written anew,
// devices against the boxes of those estimates.
#include <catch2/catch.hpp>

#include <fstream>
#include <iostream>
#include <iterator>

#include "pricing/job/price_steps.h"
#include "reports/alternatives_json.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// The starter rules with so many points tried of every signal.
RuleBook rules_to(int points) {
    RuleBook rules = starter_rules();
    rules.price_steps.share_percent->value = Decimal{0, 0};
    rules.price_steps.least_points->value = Decimal{points, 0};
    return rules;
}

std::string text_of(const std::string& path) {
    std::ifstream file(BACKPLATE_SOURCE_TREE "/" + path);
    return {std::istreambuf_iterator<char>(file), {}};
}

std::string demo_request(const std::string& name) {
    return text_of("demo/requests/" + name + ".json");
}

Estimate estimate_of(const BidRequest& request, const PriceBook& book) {
    Work work;
    return price_job(request, book, starter_rules(), work);
}

FoundSteps steps_of(const BidRequest& request, const PriceBook& book, const RuleBook& rules) {
    Work work;
    return price_steps(price_job(request, book, rules, work), book, rules, work);
}

const PriceSteps& of(const FoundSteps& found, const std::string& signal) {
    for (const PriceSteps& each : found.signals)
        if (each.signal == signal) return each;
    throw std::runtime_error("no " + signal);
}

/// The request with so many points more in its first row of the signal, written by itself.
BidRequest with_more(const std::string& json, std::size_t box, const std::string& signal,
                     int more) {
    Node sent = parse_json("sample", json).root;
    for (Node& line : sent.find("boxes")->items[box].find("points")->items) {
        if (line.find("signal")->text != signal) continue;
        const int count = std::stoi(line.find("count")->text) + more;
        line.member("count") = Node::make_number(std::to_string(count));
        break;
    }
    return *check_request(sent, starter_rules(), Date::of(2026, 11, 24)).request;
}

/// Devices by the boxes of the estimate, not by its bill.
std::string devices(const Estimate& estimate) {
    std::string text;
    for (const BoxResult& box : estimate.boxes) {
        text += box.name + ":";
        std::map<std::string, int> parts;
        for (const ModuleResult& module : box.modules) parts[module.part] += module.quantity;
        for (const SupplyResult& supply : box.supplies) {
            parts[supply.part] += supply.quantity;
            for (const PartCount& part : supply.parts) parts[part.part] += part.quantity;
        }
        for (const PartCount& part : box.heat.parts) parts[part.part] += part.quantity;
        for (const EnclosureResult& each : box.enclosures) parts[each.part] += each.quantity;
        if (box.protection) parts[box.protection->part] += box.protection->channels;
        for (const auto& [part, pieces] : parts) text += part + "*" + std::to_string(pieces) + " ";
    }
    return text;
}

bool changes_modules(const PriceStep& step) {
    return std::any_of(step.changes.begin(), step.changes.end(), [](const DeviceChange& change) {
        return change.kind == "module" || change.kind == "head" || change.kind == "controller";
    });
}

/// Every step between its two runs, and none before the first.
int judge(const std::string& json, const PriceBook& book, const FoundSteps& found,
          std::size_t box) {
    int judged = 0;
    for (const PriceSteps& signal : found.signals) {
        int before = 0;
        for (const PriceStep& step : signal.steps) {
            CAPTURE(signal.box, signal.signal, step.points);
            const auto run = [&](int more) {
                return estimate_of(with_more(json, box, signal.signal, more), book);
            };
            const Estimate start = run(before), last = run(step.points - 1),
                           next = run(step.points);
            CHECK(last.price->price == step.price_before);
            CHECK(devices(start) == devices(last));
            before = step.points;
            ++judged;
            CHECK(next.buildable == step.price.has_value());
            if (!next.buildable) continue;
            CHECK(next.price->price == *step.price);
            CHECK(devices(last) != devices(next));
        }
    }
    return judged;
}

const std::string slice = R"(, "choices": {"platforms": ["slice"]})";

} // namespace

TEST_CASE("steps of inputs by hand") {
    // Spare 20 %. Modules of the slice, list price: QS-401 4 channels 39, QS-402 8 channels 58,
    // QS-403 16 channels 94.
    // 14 points want 16.8, 17 channels: 16 + 4 (133), for 3 × 8 is 174 and 2 × 16 is 188. 16 points
    // want 19.2, 20 channels: still 16 + 4. 17 points want 20.4, 21: 16 + 8 (152). 20 points want
    // 24: still 16 + 8. 21 points want 25.2, 26: 16 + 16 (188), for 16 + 8 + 4 is 191.
    const PriceBook book = demo_book();
    const RuleBook rules = rules_to(8);
    const FoundSteps found =
        steps_of(request_of(box_request(R"({"signal": "DI", "count": 14})", slice)), book, rules);
    REQUIRE(found.signals.size() == 1);
    const PriceSteps& inputs = found.signals[0];
    CHECK(inputs.used == 14);
    CHECK(inputs.looked_at == 8);
    CHECK(inputs.free_points == 2);
    std::vector<const PriceStep*> modules;
    for (const PriceStep& step : inputs.steps)
        if (changes_modules(step)) modules.push_back(&step);
    REQUIRE(modules.size() == 2);
    const auto module_of = [](const PriceStep& step) {
        for (const DeviceChange& change : step.changes)
            if (change.kind == "module") return change;
        return DeviceChange{};
    };
    CHECK(modules[0]->points == 3);
    REQUIRE(module_of(*modules[0]).added.size() == 1);
    CHECK(module_of(*modules[0]).added[0].part == "QS-402");
    CHECK(module_of(*modules[0]).removed[0].part == "QS-401");
    CHECK(modules[1]->points == 7);
    CHECK(module_of(*modules[1]).added[0].part == "QS-403");
    CHECK(module_of(*modules[1]).removed[0].part == "QS-402");
}

/// What the lines of small parts come to.
static double small_parts(const Estimate& estimate) {
    double sum = 0;
    for (const BillLine& line : estimate.bill)
        if (line.role == "accessory" || line.role == "labels")
            sum += static_cast<double>(line.quantity) * line.unit_net->number();
    return sum;
}

TEST_CASE("what a step costs by hand") {
    // No spare, the enclosure fixed: 18 to 20 inputs in 16 + 4 channels, 21 in 16 + 8. The channels
    // beyond are wired already, so points 19 and 20 take no material. Point 21: QS-402 for QS-401,
    // 58 less 25 % for 39 less 25 %: 14.25; four channels more are wired, terminals and metres of
    // wire as the bills say (0.94 and 0.22 less 30/10 %), small parts as their lines say; sundries
    // 1.1 % of it all. The price:
    // freight 2 % of material, contingency 5 %, overhead 12 %, margin 20 % of the price.
    const PriceBook book = demo_book();
    const std::string json =
        box_request(R"({"signal": "DI", "count": 18})",
                    R"(, "choices": {"platforms": ["slice"], "enclosure": {"part": "BE-0608"}})",
                    R"(, "spare": {"percent": 0})");
    const PriceSteps inputs = of(steps_of(request_of(json), book, rules_to(4)), "DI");
    CHECK(inputs.free_points == 2);
    REQUIRE(inputs.steps.size() == 1);
    const PriceStep& step = inputs.steps[0];
    CHECK(step.points == 3);
    const Estimate base = estimate_of(request_of(json), book),
                   before = estimate_of(with_more(json, 0, "DI", 2), book),
                   after = estimate_of(with_more(json, 0, "DI", 3), book);
    CHECK(base.price->material == before.price->material);
    const auto pieces = [](const Estimate& estimate, const char* part) {
        for (const BillLine& line : estimate.bill)
            if (line.part == part) return static_cast<double>(line.quantity);
        return 0.0;
    };
    const auto more = [&](const char* part) { return pieces(after, part) - pieces(before, part); };
    const double material =
        1.011 * (small_parts(after) - small_parts(before) + 58 * 0.75 - 39 * 0.75 +
                 more("KT-025") * 0.94 * 0.7 * 0.9 + more("KW-075") * 0.22 * 0.7 * 0.9);
    CHECK(after.price->material.number() - before.price->material.number() ==
          Approx(material).margin(0.02));
    const double labour = after.price->labour.number() - before.price->labour.number();
    const double price = (1.02 * material + labour) * 1.05 * 1.12 / 0.8;
    const double rounding = after.price->rounding.number() - before.price->rounding.number();
    CHECK(step.difference()->number() == Approx(price + rounding).margin(0.05));
    const double plain = before.price->labour.number() - base.price->labour.number();
    CHECK(inputs.point_price->number() == Approx(plain * 1.05 * 1.12 / 0.8 / 2).margin(0.02));
}

TEST_CASE("every price and every change is that of two whole runs") {
    const PriceBook book = demo_book();
    const RuleBook rules = rules_to(8);
    int judged = 0;
    for (const std::string& json :
         {demo_request("spray_booth"), demo_request("funicular_drive"),
          box_request(points_text({{"DI", 30}, {"DO", 9}, {"AI_MA", 3}, {"RTD", 2}}), slice),
          box_request(points_text({{"DI", 9}, {"DO_RELAY", 6}, {"AO_V", 1}}),
                      R"(, "quantity": 3, "site": {"max_mm": {"width": 500}})")}) {
        const FoundSteps found = steps_of(request_of(json), book, rules);
        judged += judge(json, book, found, 0);
    }
    std::cout << "price steps judged: " << judged << "\n";
    CHECK(judged >= 30);
}

TEST_CASE("steps against a run for every point") {
    const PriceBook book = demo_book();
    const RuleBook rules = rules_to(8);
    int changes = 0, missed = 0;
    for (const std::string& json :
         {demo_request("spray_booth"), text_of("tests/worked_jobs/small_box/request.json"),
          box_request(points_text({{"DI", 30}, {"DO", 9}, {"RTD", 2}}), slice)}) {
        const FoundSteps found = steps_of(request_of(json), book, rules);
        for (const PriceSteps& signal : found.signals) {
            std::string before = devices(estimate_of(request_of(json), book));
            for (int more = 1; more <= signal.looked_at; ++more) {
                const std::string now =
                    devices(estimate_of(with_more(json, 0, signal.signal, more), book));
                const bool step =
                    std::any_of(signal.steps.begin(), signal.steps.end(),
                                [&](const PriceStep& each) { return each.points == more; });
                CAPTURE(json, signal.signal, more, before, now);
                if (step) CHECK(now != before);
                changes += now != before ? 1 : 0;
                missed += now != before && !step ? 1 : 0;
                before = now;
            }
        }
    }
    std::cout << "changes of devices point by point: " << changes << ", missed " << missed << "\n";
    CHECK(changes >= 15);
    CHECK(missed == 0);
}

TEST_CASE("points before the first step cost what comes with channels") {
    const PriceBook book = demo_book();
    const std::string json = demo_request("spray_booth");
    const FoundSteps found = steps_of(request_of(json), book, starter_rules());
    int judged = 0;
    for (const PriceSteps& signal : found.signals) {
        if (signal.free_points == 0) {
            CHECK_FALSE(signal.point_price);
            continue;
        }
        const Estimate base = estimate_of(request_of(json), book),
                       more =
                           estimate_of(with_more(json, 0, signal.signal, signal.free_points), book);
        CHECK(devices(base) == devices(more));
        const Money plain =
            (more.price->price - more.price->rounding) - (base.price->price - base.price->rounding);
        CHECK(*signal.point_price == plain.ratio(1, signal.free_points));
        CHECK(plain > Money());
        ++judged;
    }
    CHECK(judged >= 2);
}

TEST_CASE("the first step of modules comes after the headroom of the estimate") {
    const PriceBook book = demo_book();
    const RuleBook rules = rules_to(0);
    int judged = 0;
    for (const char* name :
         {"demo/requests/spray_booth.json", "demo/requests/funicular_drive.json",
          "demo/requests/kelp_barn.json", "demo/requests/cranberry_sluices.json",
          "tests/worked_jobs/small_box/request.json", "tests/worked_jobs/wall_box/request.json"}) {
        const Estimate base = estimate_of(request_of(text_of(name)), book);
        Work work;
        const FoundSteps found = price_steps(base, book, rules, work);
        for (const PriceSteps& signal : found.signals)
            for (const PointResult& point : base.points) {
                if (point.box != signal.box || point.signal != signal.signal) continue;
                CAPTURE(name, signal.signal);
                CHECK(signal.looked_at > point.headroom);
                const auto first =
                    std::find_if(signal.steps.begin(), signal.steps.end(), changes_modules);
                REQUIRE(first != signal.steps.end());
                CHECK(first->points == point.headroom + 1);
                ++judged;
            }
    }
    std::cout << "headrooms judged: " << judged << "\n";
    CHECK(judged >= 25);
}

TEST_CASE("where nothing builds any more is the last step") {
    const PriceBook book = demo_book();
    const std::string narrow =
        R"(, "site": {"max_mm": {"width": 500, "height": 700}}, "choices": {"platforms": ["slice"]})";
    const RuleBook rules = rules_to(60);
    const FoundSteps found =
        steps_of(request_of(box_request(R"({"signal": "DI", "count": 4})", narrow)), book, rules);
    const PriceSteps& inputs = of(found, "DI");
    REQUIRE_FALSE(inputs.steps.empty());
    const PriceStep& last = inputs.steps.back();
    CHECK_FALSE(last.price);
    CHECK_FALSE(last.difference());
    CHECK_FALSE(last.limits.empty());
    CHECK(last.points < 60);
    judge(box_request(R"({"signal": "DI", "count": 4})", narrow), book, found, 0);
}

TEST_CASE("rows with an id have steps of their own, signals of assemblies too") {
    const PriceBook book = demo_book();
    const BidRequest request = request_of(box_request(
        R"({"signal": "DI", "count": 3, "list": [{"tag": "S1"}, {"tag": "S2"}, {"tag": "S3"}]},
           {"signal": "DI", "count": 2, "id": "far"}, {"signal": "DI", "count": 1})",
        R"(, "assemblies": [{"name": "motor, direct on line", "quantity": 1}])"));
    const FoundSteps found = steps_of(request, book, starter_rules());
    std::vector<std::string> rows;
    for (const PriceSteps& each : found.signals) rows.push_back(each.signal + each.id);
    CHECK(rows == std::vector<std::string>{"DI", "DIfar", "DO"});
    for (const PriceSteps& each : found.signals) CHECK(each.looked_at > 0);
}

TEST_CASE("no rows of the table, nothing built: no steps") {
    const PriceBook book = demo_book();
    RuleBook rules = starter_rules();
    rules.price_steps = {};
    const std::string json = box_request(points_text({{"DI", 4}}));
    const FoundSteps none = steps_of(request_of(json), book, rules);
    CHECK(none.runs == 0);
    CHECK(of(none, "DI").looked_at == 0);
    CHECK(of(none, "DI").steps.empty());
    const std::string nowhere =
        box_request(points_text({{"DI", 4}}), R"(, "choices": {"platforms": ["nowhere"]})");
    CHECK(steps_of(request_of(nowhere), book, starter_rules()).signals.empty());
}

TEST_CASE("JSON of alternatives holds the steps") {
    const PriceBook book = demo_book();
    const BidRequest request = request_of(box_request(points_text({{"DI", 14}}), slice));
    Alternatives alternatives;
    Work work;
    alternatives.base = price_job(request, book, starter_rules(), work);
    const FoundSteps found = price_steps(alternatives.base, book, starter_rules(), work);
    const Node root =
        parse_json("output", alternatives_json(alternatives, found, starter_rules())).root;
    const Node& steps = root.find("price_steps")->items.at(0);
    CHECK(steps.find("box")->text == "CP1");
    CHECK(steps.find("id")->is(Node::Kind::null));
    CHECK(steps.find("free_points")->text == "2");
    const Node& first = steps.find("steps")->items.at(0);
    CHECK(first.find("points")->text == "3");
    CHECK(first.find("text")->text ==
          "module QS-402 instead of QS-401; enclosure BE-0507 instead of BE-0606");
    CHECK(first.find("difference")->text ==
          of(found, "DI").steps[0].difference()->text(alternatives.base.price->digits));
}
