#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

std::string box_text(const std::string& name, const std::string& points,
                     const std::string& more = {}) {
    return R"({"name": ")" + name + R"(", "points": [)" + points + "]" + more + "}";
}

std::string led_by(const std::string& name, const std::string& link = {}) {
    return R"(, "controlled_by": ")" + name + "\"" +
           (link.empty() ? link : R"(, "link": {)" + link + "}");
}

std::string job_of(const std::vector<std::string>& boxes, const std::string& more = {}) {
    std::string list;
    for (const std::string& box : boxes) list += (list.empty() ? "" : ", ") + box;
    return R"({"format": "backplate-request/1")" + more + R"(, "boxes": [)" + list + "]}";
}

Estimate estimate_of(const std::string& json) {
    const PriceBook book = demo_book();
    Work work;
    return price_job(request_of(json), book, starter_rules(), work);
}

const Finding* find(const Estimate& estimate, const std::string& code) {
    for (const Finding& finding : estimate.findings)
        if (finding.code == code) return &finding;
    return nullptr;
}

std::string platform_of(const std::string& part) {
    const PriceBook book = demo_book();
    return book.find(part)->platform;
}

int pieces(const Estimate& estimate, const std::string& box, const std::string& role) {
    int count = 0;
    for (const BillLine& line : estimate.bill)
        if (line.box == box && line.role == role) count += static_cast<int>(line.quantity);
    return count;
}

Money sum(const std::vector<BoxResult>& boxes, Money BoxResult::*figure) {
    Money all;
    for (const BoxResult& box : boxes) all += box.*figure;
    return all;
}

const std::string some = points_text({{"DI", 12}, {"DO", 6}, {"AI_MA", 2}});

} // namespace

TEST_CASE("costs of the boxes add up to the job") {
    Draws draws(811);
    for (int i = 0; i < 8; ++i) {
        std::vector<std::string> boxes;
        const int count = draws.between(2, 4);
        for (int k = 0; k < count; ++k) {
            const std::string points =
                points_text({{"DI", draws.between(1, 40)}, {"DO", draws.between(0, 20)}});
            const std::string quantity = R"(, "quantity": )" + std::to_string(draws.between(1, 3));
            boxes.push_back(box_text("B" + std::to_string(k), points,
                                     quantity + (k > 0 && draws.chance(60) ? led_by("B0") : "")));
        }
        const Estimate estimate = estimate_of(job_of(boxes));
        REQUIRE(estimate.buildable);
        const PriceResult& price = *estimate.price;
        CAPTURE(i, count);
        CHECK(sum(estimate.boxes, &BoxResult::price) == price.price);
        CHECK(sum(estimate.boxes, &BoxResult::material) == price.material);
        Money of_job;
        for (const LabourLine& line : estimate.labour)
            if (line.box.empty()) of_job += line.cost;
        CHECK(sum(estimate.boxes, &BoxResult::labour) + of_job == price.labour);
        for (std::size_t line = 0; line < estimate.bill.size(); ++line)
            CHECK(estimate.bill[line].line == static_cast<int>(line) + 1);
    }
}

TEST_CASE("a job of thirty boxes names every input of its delivery") {
    std::vector<std::string> boxes;
    for (int i = 1; i <= 30; ++i)
        boxes.push_back(box_text("CP" + std::to_string(i), points_text({{"DI", 4 + i}})));
    const Estimate estimate = estimate_of(job_of(boxes));
    REQUIRE(estimate.buildable);
    const auto entry =
        std::find_if(estimate.basis.begin(), estimate.basis.end(),
                     [](const BasisEntry& each) { return each.figure == "/delivery/weeks"; });
    REQUIRE(entry != estimate.basis.end());
    CHECK(entry->inputs.size() > 104);
    CHECK(entry->formula.find(input_letter(entry->inputs.size() - 1)) != std::string::npos);
}

TEST_CASE("the same points in several boxes never cost less") {
    Draws draws(823);
    for (int i = 0; i < 6; ++i) {
        const int di = draws.between(8, 60), outputs = draws.between(4, 30);
        const int first = draws.between(1, di - 1), second = draws.between(1, outputs - 1);
        const Estimate whole =
            estimate_of(job_of({box_text("B0", points_text({{"DI", di}, {"DO", outputs}}))}));
        const auto split = [&](const std::string& led) {
            return estimate_of(
                job_of({box_text("B0", points_text({{"DI", first}, {"DO", second}})),
                        box_text("B1", points_text({{"DI", di - first}, {"DO", outputs - second}}),
                                 led)}));
        };
        CAPTURE(di, outputs, first, second);
        CHECK(split(led_by("B0")).price->direct >= whole.price->direct);
        CHECK(split("").price->direct >= whole.price->direct);
    }
}

TEST_CASE("a system has one platform, one controller, and heads in the boxes it leads") {
    const Estimate estimate = estimate_of(job_of(
        {box_text("MAIN", some), box_text("FAR", some, led_by("MAIN")), box_text("ALONE", some)}));
    REQUIRE(estimate.systems.size() == 2);
    CHECK(estimate.systems[0].boxes == std::vector<std::string>{"MAIN", "FAR"});
    CHECK(estimate.systems[1].boxes == std::vector<std::string>{"ALONE"});
    for (std::size_t i : {0u, 1u})
        for (const ModuleResult& module : estimate.boxes[i].modules)
            CHECK(platform_of(module.part) == estimate.systems[0].platform);
    CHECK(pieces(estimate, "MAIN", "controller") == 1);
    CHECK(pieces(estimate, "FAR", "controller") == 0);
    CHECK(pieces(estimate, "FAR", "head") >= 1);
    CHECK(pieces(estimate, "ALONE", "controller") == 1);
    for (std::size_t i = 0; i < estimate.points.size(); ++i)
        CHECK(estimate.points[i].box == (i < 3 ? "MAIN" : i < 6 ? "FAR" : "ALONE"));
    CHECK(find(estimate, "LOCATION_SPLIT"));
}

TEST_CASE("a medium takes its parts at both ends of every line") {
    const std::string fibre = R"("medium": "fibre", "length_m": 400)";
    const Estimate estimate =
        estimate_of(job_of({box_text("MAIN", some), box_text("A", some, led_by("MAIN", fibre)),
                            box_text("B", some, R"(, "quantity": 2)" + led_by("MAIN", fibre)),
                            box_text("C", some, led_by("MAIN"))}));
    CHECK(pieces(estimate, "MAIN", "network") == 3); // one to A, two to the boxes B
    CHECK(pieces(estimate, "A", "network") == 1);
    CHECK(pieces(estimate, "B", "network") == 1); // in each of the two
    CHECK(pieces(estimate, "C", "network") == 0);
    CHECK_FALSE(find(estimate, "LINK_TOO_LONG"));
    const Estimate far = estimate_of(
        job_of({box_text("MAIN", some),
                box_text("A", some, led_by("MAIN", R"("medium": "copper", "length_m": 100.5)"))}));
    CHECK(find(far, "LINK_TOO_LONG"));
}

TEST_CASE("quantities: boxes of one system times the systems") {
    const auto boxes = [&](const char* systems, const char* led) {
        return estimate_of(job_of(
            {box_text("MAIN", some, std::string(R"(, "quantity": )") + systems),
             box_text("FAR", some, std::string(R"(, "quantity": )") + led + led_by("MAIN"))}));
    };
    const Estimate one = boxes("1", "1"), many = boxes("2", "3");
    CHECK(many.boxes[0].quantity == 2);
    CHECK(many.boxes[1].quantity == 6);
    for (const BillLine& line : many.bill) {
        CAPTURE(line.box, line.description);
        CHECK(*line.line_all == line.line_net->times(line.box == "MAIN" ? 2 : 6));
    }
    const auto drawings = [](const Estimate& estimate) {
        double once = 0;
        for (const LabourLine& line : estimate.labour)
            if (line.activity == "drawings") once += line.once.number();
        return once;
    };
    CHECK(drawings(many) > 0);
    CHECK(drawings(many) == Approx(drawings(one))); // drawn once
}

TEST_CASE("a box that repeats another has no one-off hours of its own") {
    const auto second = [&](const std::string& more) {
        return estimate_of(job_of({box_text("A", some), box_text("B", some, more)}));
    };
    const Estimate own = second(""), repeat = second(R"(, "work": {"repeat_of": "A"})");
    const auto hours = [](const Estimate& estimate, Hours LabourLine::*figure) {
        Hours all;
        for (const LabourLine& line : estimate.labour)
            if (line.box == "B" && line.activity == "software") all += line.*figure;
        return all;
    };
    CHECK(hours(own, &LabourLine::once) > Hours());
    CHECK(hours(repeat, &LabourLine::once) == Hours());
    CHECK(hours(repeat, &LabourLine::each) == hours(own, &LabourLine::each));
    CHECK(repeat.price->material == own.price->material);
    CHECK(repeat.price->labour < own.price->labour);
}

TEST_CASE("a box with equipment only takes a supply where something draws at 24 V") {
    const auto drive = [&](const std::string& amps) {
        return estimate_of(
            job_of({box_text("MAIN", some),
                    box_text("DRIVE", "",
                             R"(, "controlled_by": "none", "equipment": [{"text": "Drive by client",
                      "where": "plate", "watts": 20, "width_mm": 130, "height_mm": 300,
                      "depth_mm": 150, "price": "0.00", "hours": 2)" +
                                 amps + "}]")}));
    };
    const Estimate without = drive(""), with = drive(R"(, "amps_24v": 0.4)");
    CHECK(without.boxes[1].modules.empty());
    CHECK(without.boxes[1].stations.empty());
    CHECK(without.boxes[1].supplies.empty());
    CHECK_FALSE(without.boxes[1].protection);
    CHECK(without.boxes[1].heat.inside.value == Approx(20));
    CHECK(without.systems.size() == 1);
    REQUIRE(with.boxes[1].supplies.size() == 1);
    CHECK(with.boxes[1].supplies[0].load_all_on.value >= 0.4);
    CHECK(with.boxes[1].heat.inside.value > 20);
    CHECK(estimate_of(job_of({box_text("DRIVE", "", R"(, "controlled_by": "none",
          "equipment": [{"text": "Drive", "price": "1.00"}])")}))
              .buildable);
}

// By hand: 20 % of 3 × 7 = 21 points are 5 channels over the job; by box each takes 2, 6 in all.
TEST_CASE("a spare over the job is rounded once and placed in boxes that have the signal") {
    const std::string seven = points_text({{"DI", 7}}), lamps = points_text({{"DI", 7}, {"DO", 3}});
    const auto spare = [&](const char* scope) {
        return estimate_of(
            job_of({box_text("A", seven), box_text("B", seven), box_text("C", lamps, led_by("A"))},
                   std::string(R"(, "spare": {"percent": 20, "scope": ")") + scope + "\"}"));
    };
    const auto required = [](const Estimate& estimate, const std::string& signal) {
        int all = 0;
        for (const PointResult& point : estimate.points)
            if (point.signal == signal) all += point.required;
        return all;
    };
    const Estimate job = spare("job"), box = spare("box");
    CHECK(required(job, "DI") == 21 + 5);
    CHECK(required(box, "DI") == 21 + 6);
    CHECK(required(job, "DO") == 4);
    for (const PointResult& point : job.points) CHECK(point.fitted >= point.required);
    CHECK(job.price->direct <= box.price->direct);
    CHECK(find(job, "BOUND_GAP"));
}

TEST_CASE("a safety controller stands beside the controller where the platform has one") {
    const std::string safe = points_text({{"DI", 8}, {"DI_SAFE", 4}});
    const auto with = [&](const std::string& own, const std::string& choices) {
        return estimate_of(job_of({box_text("MAIN", own, R"(, "choices": {)" + choices + "}"),
                                   box_text("FAR", safe, led_by("MAIN"))}));
    };
    const std::string slice = R"("platforms": ["slice"])";
    const Estimate both = with(safe, slice), far = with(some, slice);
    for (const Estimate* estimate : {&both, &far}) {
        CHECK(pieces(*estimate, "MAIN", "controller") == 2);
        CHECK(pieces(*estimate, "FAR", "controller") == 0);
    }
    CHECK(pieces(with(safe, R"("platforms": ["large"])"), "MAIN", "controller") == 1);
    CHECK(pieces(with(safe, slice + R"(, "keep": [{"part": "QS-305"}])"), "MAIN", "controller") ==
          2);
    const Estimate without = with(safe, slice + R"(, "exclude": ["QS-395"])");
    CHECK_FALSE(without.buildable);
    CHECK(find(without, "UNBUILDABLE")->params.back().second ==
          "no safety controller of platform slice may be taken");
    const Estimate plain =
        estimate_of(job_of({box_text("MAIN", some, R"(, "choices": {"platforms": ["slice"]})")}));
    CHECK(pieces(plain, "MAIN", "controller") == 1);
}

TEST_CASE("packs are bought once for the job") {
    const Estimate estimate = estimate_of(job_of({box_text("A", some), box_text("B", some)}));
    const PriceBook book = demo_book();
    std::map<std::string, std::int64_t> need, bought;
    for (const BillLine& line : estimate.bill) {
        need[line.part] += line.quantity;
        bought[line.part] += line.to_buy;
    }
    for (const auto& [key, pieces_bought] : bought)
        if (const Part* part = key.empty() ? nullptr : book.find(key))
            CHECK(pieces_bought ==
                  std::max<std::int64_t>(need[key], part->minimum_order) +
                      (part->pack -
                       std::max<std::int64_t>(need[key], part->minimum_order) % part->pack) %
                          part->pack);
}

TEST_CASE("a system that nothing builds says so at its boxes") {
    const Estimate estimate = estimate_of(
        job_of({box_text("MAIN", some, R"(, "choices": {"platforms": ["slice"]})"),
                box_text("FAR", some, led_by("MAIN") + R"(, "choices": {"platforms": ["block"]})"),
                box_text("ALONE", some)}));
    CHECK_FALSE(estimate.buildable);
    CHECK(estimate.boxes.size() == 3);
    const Finding* finding = find(estimate, "UNBUILDABLE");
    REQUIRE(finding);
    CHECK(finding->where == "/boxes/0");
    CHECK(finding->params.back().second == "no platform that all boxes of the system may have");
}
