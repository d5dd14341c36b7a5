// What a copy must ask again: trade-practice 3.2, 5 (pain point 9).
#include "pricing/job/inherited.h"

#include <catch2/catch.hpp>

#include "catalog/exchange/request_json.h"
#include "pricing/request/node_values.h"

using namespace backplate;

namespace {

Node tree(const char* json) { return parse_json("request", json).root; }

std::vector<std::string> fields(const Node& request) {
    std::vector<std::string> names;
    for (const InheritedValue& value : inherited_values(request))
        names.push_back(value.field + (value.value.empty() ? "" : " = " + value.value));
    return names;
}

} // namespace

TEST_CASE("every field leads to the value that it names") {
    const Node request = parse_json("sample", R"({"format": "backplate-request/1",
        "job": {"client": "A/B"},
        "boxes": [{"name": "CP1", "points": [{"signal": "DI", "count": 4},
                                             {"signal": "DI", "count": 6},
                                             {"id": "tank", "signal": "DO", "count": 2}],
                   "site": {"ambient_c": [5, 40]}}]})")
                             .root;
    for (const InheritedValue& value : inherited_values(request)) {
        CAPTURE(value.field);
        const Node* found = at_pointer(request, pointer_of(request, value.field));
        if (value.value.empty()) continue; // a question: it may be about what is absent
        REQUIRE(found);
        CHECK(json_line(*found) == value.value);
    }
    CHECK(pointer_of(request, "/boxes/0/points/DI#2/count") == "/boxes/0/points/1/count");
    CHECK(pointer_of(request, "/boxes/0/points/tank/count") == "/boxes/0/points/2/count");
    CHECK(pointer_of(request, "/boxes/0/points/gone/count") == "/boxes/0/points");
}

TEST_CASE("every stated value is inherited, entries under their names") {
    const Node request = tree(R"({"format": "backplate-request/1", "job": {"title": "Kiln"},
        "boxes": [{"name": "CP1", "points": [
            {"signal": "DI", "count": 48}, {"signal": "DI", "count": 2},
            {"signal": "AI_MA", "count": 6, "id": "loops", "list": [{"tag": "A"}]}],
          "site": {"ambient_c": [-5, 40]},
          "equipment": [{"text": "Panel a/b", "watts": 12}]}]})");
    CHECK(fields(request) ==
          std::vector<std::string>{
              "/boxes/0/equipment/Panel a~1b/text = \"Panel a/b\"",
              "/boxes/0/equipment/Panel a~1b/watts = 12", "/boxes/0/name = \"CP1\"",
              "/boxes/0/points/DI#2/count = 2", "/boxes/0/points/DI#2/signal = \"DI\"",
              "/boxes/0/points/DI/count = 48", "/boxes/0/points/DI/signal = \"DI\"",
              "/boxes/0/points/loops/count = 6", "/boxes/0/points/loops/id = \"loops\"",
              "/boxes/0/points/loops/list = [{\"tag\": \"A\"}]",
              "/boxes/0/points/loops/signal = \"AI_MA\"", "/boxes/0/site",
              "/boxes/0/site/ambient_c = [-5, 40]", "/commercial", "/job/title = \"Kiln\"",
              "/spare"});
}

TEST_CASE("spare, site and terms are asked again, stated or not, once") {
    const Node request =
        tree(R"({"spare": {}, "boxes": [{"site": {}}, {}], "commercial": {"tax_percent": 19}})");
    CHECK(fields(request) == std::vector<std::string>{"/boxes/0/site", "/boxes/1 = {}",
                                                      "/boxes/1/site", "/commercial",
                                                      "/commercial/tax_percent = 19", "/spare"});
}

TEST_CASE("what is to be confirmed is told by place") {
    const auto values = inherited_values(tree(R"({"job": {"title": "Kiln"}, "boxes": [
        {"name": "CP1", "points": [{"signal": "DI", "count": 48}]}]})"));
    const Inherited inherited = inherited_from(3, values);
    CHECK(inherited.job == 3);
    CHECK(inherited.count == 7);
    CHECK(inherited.places == "/boxes/0/name (1), /boxes/0/points (2), /boxes/0/site (1), "
                              "/commercial (1), /job (1), /spare (1)");
}

TEST_CASE("a new entry moves no other") {
    const auto before = inherited_values(tree(R"({"boxes": [{"points": [
        {"signal": "DO", "count": 4}]}]})"));
    const auto after = inherited_values(tree(R"({"boxes": [{"points": [
        {"signal": "DI", "count": 8}, {"signal": "DO", "count": 4}]}]})"));
    for (const InheritedValue& value : before) {
        CAPTURE(value.field);
        CHECK(std::find(after.begin(), after.end(), value) != after.end());
    }
}

TEST_CASE("entries whose names look alike are kept apart") {
    const auto values =
        inherited_values(tree(R"({"a": [{"id": "x"}, {"id": "x#2"}, {"id": "x"}]})"));
    CHECK(std::count_if(values.begin(), values.end(), [](const InheritedValue& value) {
              return value.field.starts_with("/a/");
          }) == 3);
    for (std::size_t i = 1; i < values.size(); ++i) CHECK(values[i - 1].field < values[i].field);
}

TEST_CASE("days and enquiry stay with the template") {
    const Node taken = template_request(tree(
        R"({"job": {"title": "Kiln", "date": "2026-01-01", "due": "2026-02-01", "enquiry": "E-1"}})"));
    CHECK(json_text(taken) == "{\n  \"job\": {\n    \"title\": \"Kiln\"\n  }\n}\n");
    CHECK(template_request(tree(R"({"job": {"date": "2026-01-01"}})")).find("job") == nullptr);
}
