#include <catch2/catch.hpp>

#include "app/list_points.h"
#include "catalog/exchange/request_json.h"
#include "pricing/values/faults.h"

using namespace backplate;

namespace {

TakenPoint point(int row, const char* panel, const char* signal, const char* wiring = "") {
    TakenPoint taken;
    taken.row = row;
    taken.panel = panel;
    taken.signal = signal;
    taken.tag = "T-" + std::to_string(row);
    taken.text = "text";
    taken.wiring = wiring;
    return taken;
}

Takeoff takeoff_of(std::vector<TakenPoint> points) {
    Takeoff takeoff;
    takeoff.points = std::move(points);
    return takeoff;
}

const Takeoff two_panels =
    takeoff_of({point(2, "A", "DI", "contact"), point(3, "A", "DO"), point(4, "A", "DI", "3-wire"),
                point(5, "B", "RTD"), point(6, "A", "DI", "contact")});

std::string at(const Node& request, const char* pointer) {
    const Node* node = at_pointer(request, pointer);
    return node ? node->text : "absent";
}

} // namespace

TEST_CASE("a new request holds a box for every panel and a line for every wiring") {
    Node request;
    const WrittenPoints written = write_points(request, "new.json", two_panels, "list.csv");
    CHECK(at(request, "/format") == "backplate-request/1");
    CHECK(at(request, "/boxes/0/name") == "A");
    CHECK(at(request, "/boxes/0/points/0/signal") == "DI");
    CHECK(at(request, "/boxes/0/points/0/wiring") == "contact");
    CHECK(at(request, "/boxes/0/points/0/count") == "2");
    CHECK(at(request, "/boxes/0/points/1/wiring") == "3-wire");
    CHECK(at(request, "/boxes/0/points/2/signal") == "DO");
    CHECK(at(request, "/boxes/0/points/2/wiring") == "absent");
    CHECK(at(request, "/boxes/0/points/0/list/1/tag") == "T-6");
    CHECK(at(request, "/boxes/0/points/0/list/1/origin/file") == "list.csv");
    CHECK(at(request, "/boxes/0/points/0/list/1/origin/row") == "6");
    CHECK(at(request, "/boxes/1/name") == "B");
    REQUIRE(written.boxes.size() == 2);
    CHECK(written.boxes[0].points == 4);
    CHECK(written.boxes[0].is_new);
}

TEST_CASE("an old request keeps all but the points of the boxes that the list names") {
    Node request = parse_json("old", R"({"format": "backplate-request/1", "job": {"title": "Kiln"},
        "boxes": [{"points": [{"signal": "AI_V", "count": 3}]},
                  {"name": "B", "site": {"altitude_m": 450}, "points": [{"signal": "DO", "count": 9}]}]})")
                       .root;
    const WrittenPoints written = write_points(request, "old", two_panels, "list.csv");
    CHECK(at(request, "/job/title") == "Kiln");
    CHECK(at(request, "/boxes/0/points/0/signal") == "AI_V");
    CHECK(at(request, "/boxes/1/site/altitude_m") == "450");
    CHECK(at(request, "/boxes/1/points/0/signal") == "RTD");
    CHECK(at(request, "/boxes/1/points/1/signal") == "absent");
    CHECK(at(request, "/boxes/2/name") == "A");
    CHECK_FALSE(written.boxes[1].is_new);
}

TEST_CASE("a list without panels goes into the only box, else into CP1") {
    const Takeoff list = takeoff_of({point(2, "", "DI")});
    Node none;
    CHECK(write_points(none, "r", list, "l").boxes[0].box == "CP1");
    const auto into = [&](const char* boxes) {
        Node request =
            parse_json("r",
                       std::string(R"({"format": "backplate-request/1", "boxes": )") + boxes + "}")
                .root;
        return write_points(request, "r", list, "l").boxes[0];
    };
    CHECK(into(R"([{"name": "Kiln"}])").box == "Kiln");
    CHECK_FALSE(into(R"([{}, {"name": "Kiln"}])").is_new);
    CHECK(into(R"([{"name": "Kiln"}, {"name": "Oven"}])").is_new);
}

TEST_CASE("rows without a panel are named where others have one") {
    Node request;
    const Takeoff list = takeoff_of({point(2, "A", "DI"), point(3, "", "DI")});
    CHECK(write_points(request, "r", list, "l").rows_without_panel == std::vector<int>{3});
}

TEST_CASE("what is no request is refused by its name") {
    for (const char* text : {"[]", "{}", R"({"format": "backplate-estimate/1"})",
                             R"({"format": "backplate-request/1", "boxes": [1]})"}) {
        Node request = parse_json("file.json", text).root;
        INFO(text);
        CHECK_THROWS_AS(write_points(request, "file.json", two_panels, "l"), BadInput);
    }
}

TEST_CASE("counts, sheets, devices and isolation reach the request") {
    TakenPoint taken = point(7, "A", "AI_MA");
    taken.sheet = "Points";
    taken.device = "Vortex meter";
    taken.isolated = true;
    taken.count = 3;
    Node request;
    const WrittenPoints written =
        write_points(request, "new.json", takeoff_of({taken, point(8, "A", "AI_MA")}), "list.xlsx");
    CHECK(written.boxes.at(0).points == 4);
    CHECK(at(request, "/boxes/0/points/0/count") == "3");
    CHECK(at_pointer(request, "/boxes/0/points/0/needs/isolated")->flag);
    CHECK(at(request, "/boxes/0/points/0/list/2/device") == "Vortex meter");
    CHECK(at(request, "/boxes/0/points/0/list/2/origin/sheet") == "Points");
    CHECK(at(request, "/boxes/0/points/1/count") == "1");
    CHECK(at(request, "/boxes/0/points/1/needs/isolated") == "absent");
    CHECK_THROWS_AS(
        [&] {
            taken.count = 100'001;
            write_points(request, "new.json", takeoff_of({taken}), "list.xlsx");
        }(),
        BadInput);
}
