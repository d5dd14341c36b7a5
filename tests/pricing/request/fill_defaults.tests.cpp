// Expected: the worked job of 56 points (tests/worked_jobs/fish_pass), filled by a separate script
// from the same rows of defaults; elsewhere the rows themselves, as each test says.

#include <algorithm>

#include <catch2/catch.hpp>

#include "pricing/request/assumptions.h"
#include "pricing/request/node_values.h"
#include "tests/pricing/request/starter_book.h"

namespace backplate {
namespace {

std::string text_at(const Node& root, const std::string& pointer) {
    const Node* node = at_pointer(root, pointer);
    return node ? json_line(*node) : "absent";
}

std::string replaced(std::string text, const std::string& mark, const std::string& by) {
    const auto at = text.find(mark);
    return at == std::string::npos ? text : text.replace(at, mark.size(), by);
}

std::string sentence(const BidRequest& request, const std::string& group_key) {
    for (const Assumption& each : request.assumptions)
        if (each.rule == "defaults/" + group_key) return each.text;
    return "none";
}

/// Without the keys that came after the worked job.
Node without_later_keys(Node filled) {
    const auto take = [](Node& node, std::initializer_list<std::string_view> keys) {
        std::erase_if(node.members, [&](const Member& member) {
            return std::find(keys.begin(), keys.end(), member.key) != keys.end();
        });
    };
    for (Node& box : filled.member("boxes").items) {
        for (Node& equipment : box.member("equipment").items)
            take(equipment, {"volts", "current", "amps"});
        take(box.member("choices"), {"separate_output_supply"});
    }
    return filled;
}

TEST_CASE("the request of the worked job is filled member for member") {
    const Node expected = tree_of(test_file("worked_jobs/fish_pass/expected_estimate.json"));
    const auto request = good_request(test_file("worked_jobs/fish_pass/request.json"));
    const Node* echo = expected.find("request");
    REQUIRE(echo);
    CHECK(same_value(without_later_keys(request.filled), *echo));
    CHECK_FALSE(same_value(request.sent, *echo)); // the comparison can fail
}

TEST_CASE("the assumptions of the worked job are those of its estimate") {
    const Node expected = tree_of(test_file("worked_jobs/fish_pass/expected_estimate.json"));
    const auto request = good_request(test_file("worked_jobs/fish_pass/request.json"));
    const Node* printed = expected.find("assumptions");
    REQUIRE(printed);
    REQUIRE(printed->items.size() == 7);
    REQUIRE(request.assumptions.size() == printed->items.size());
    for (std::size_t i = 0; i < printed->items.size(); ++i) {
        const Assumption& made = request.assumptions[i];
        const Node& wanted = printed->items[i];
        CHECK(json_quoted(made.field) == text_at(wanted, "/field"));
        CHECK(made.value == text_at(wanted, "/value"));
        CHECK((made.unit.empty() ? "null" : json_quoted(made.unit)) == text_at(wanted, "/unit"));
        CHECK(json_quoted(made.rule) == text_at(wanted, "/rule"));
        // the rating is known only after sizing
        CHECK(json_quoted(replaced(made.text, "{rating_ka}", "6.0")) == text_at(wanted, "/text"));
    }
}

TEST_CASE("a request of one line gets every default of the practice") {
    struct Row {
        std::string pointer, iec, north_america;
    };
    // rows of `defaults` and `signals`
    const Row rows[] = {
        {"/job/date", "\"2026-11-24\"", "\"2026-11-24\""},
        {"/job/units", "\"metric\"", "\"inch\""},
        {"/job/currency", "\"EUR\"", "\"EUR\""},
        {"/spare/percent", R"({"default": 20})", R"({"default": 20})"},
        {"/spare/kind", "null", "null"},
        {"/boxes/0/name", "\"CP1\"", "\"CP1\""},
        {"/boxes/0/points/0/wiring", "\"contact\"", "\"contact\""},
        {"/boxes/0/points/0/volts", "24", "24"},
        {"/boxes/0/points/1/volts", "230", "120"},
        {"/boxes/0/points/1/fed_from_box", "false", "false"},
        {"/boxes/0/site/ambient_c", "[5, 40]", "[5, 40]"},
        {"/boxes/0/site/protection", "\"IP54\"", "\"Type 12\""},
        {"/boxes/0/site/supply",
         R"({"volts": 230, "phases": 1, "hz": 50, "neutral": true, "feeds": 1})",
         R"({"volts": 120, "phases": 1, "hz": 60, "neutral": true, "feeds": 1})"},
        {"/commercial/margin_percent", "20", "20"},
        {"/commercial/markup_percent", "null", "null"},
        {"/boxes/0/choices/enclosure", "\"choose\"", "\"choose\""},
        {"/risk/seed", "1", "1"},
    };
    const std::string boxes = R"("boxes": [{"points": [{"signal": "DI", "count": 1},
                                                       {"signal": "DI_AC", "count": 1}]}]})";
    const std::string start = R"({"format": "backplate-request/1", )";
    const auto iec = good_request(start + boxes);
    const auto america = good_request(start + R"("job": {"practice": "north_america"}, )" + boxes);
    for (const Row& row : rows) {
        INFO(row.pointer);
        CHECK(text_at(iec.filled, row.pointer) == row.iec);
        CHECK(text_at(america.filled, row.pointer) == row.north_america);
    }
    CHECK(iec.sent == tree_of(start + boxes));
}

TEST_CASE("the feed of an output follows what stands between") {
    const auto fed = [](const std::string& members) {
        return text_at(good_request(R"({"format": "backplate-request/1", "boxes": [{"points": [
            {"signal": "DO", "count": 1)" +
                                    members + "}]}]}")
                           .filled,
                       "/boxes/0/points/0/fed_from_box");
    };
    // table signals, row DO: from the box when wired direct, from elsewhere behind an interface
    CHECK(fed("") == "true");
    CHECK(fed(R"(, "via": null)") == "true");
    CHECK(fed(R"(, "via": "direct")") == "true");
    CHECK(fed(R"(, "via": "relay")") == "false");
    CHECK(fed(R"(, "via": "relay", "fed_from_box": true)") == "true");
}

TEST_CASE("a map left out takes its own row, its open member the row of the member") {
    RuleBook rules = starter_book();
    for (DefaultRow& row : rules.defaults) {
        if (row.key == "spare.percent") row.default_iec = "25";
        if (row.key == "spare.percent.default") row.default_iec = "30";
    }
    const auto percent = [&](const std::string& spare) {
        const auto checked =
            check_request(tree_of(small_request(spare, "", "")), rules, Date::of(2026, 11, 24));
        REQUIRE(checked.request);
        return text_at(checked.request->filled, "/spare/percent");
    };
    CHECK(percent("") == R"({"default": 25})");
    CHECK(percent(R"("spare": {"kind": "wired"})") == R"({"default": 25})");
    CHECK(percent(R"("spare": {"percent": {"DO": 10}})") == R"({"DO": 10, "default": 30})");
    CHECK(percent(R"("spare": {"percent": 15})") == R"({"default": 15})");
}

TEST_CASE("a markup takes the place of the margin") {
    const auto request =
        good_request(small_request(R"("commercial": {"markup_percent": 25})", "", ""));
    CHECK(text_at(request.filled, "/commercial/margin_percent") == "null");
    CHECK_FALSE(request.commercial.margin);
    CHECK(request.commercial.markup == Percent::whole(25));
}

TEST_CASE("not stated counts as the default and is printed") {
    const auto request = good_request(small_request(
        R"("scope": {"drawings": "excluded", "software": "not_stated", "works_test": "included",
            "packing": "option", "documents": "full", "languages": 2, "commissioning": "included",
            "transport": "excluded", "witness_days": 0.5, "site_days": 1})",
        "", ""));
    CHECK(request.scope.software == "included");
    CHECK(text_at(request.filled, "/scope/software") == "\"included\"");
    CHECK(sentence(request, "scope.software") ==
          "Included: software, works test, commissioning; documents full, in 2 language(s).");
    CHECK(sentence(request, "scope.commissioning") == "none"); // all of that group was stated
}

TEST_CASE("the sentence of the spare names exceptions") {
    const auto text = [](const std::string& spare) {
        return sentence(good_request(small_request("\"spare\": " + spare, "", "")), "spare.kind");
    };
    CHECK(text(R"({"basis": "of_used", "percent": 15, "scope": "box"})") ==
          "Spare: 15 % of used, wired, rounded up per signal in each box.");
    CHECK(text(R"({"basis": "of_installed", "percent": {"default": 20, "DO": 12.50, "DI": null},
                   "scope": "box"})") ==
          "Spare: DO 12.5 %, others 20 % of installed, wired, rounded up per signal in each box.");
}

TEST_CASE("documents in inches have the climate in degrees Fahrenheit and feet") {
    const auto request =
        good_request(small_request(R"("job": {"units": "inch"})",
                                   R"("site": {"ambient_c": [-7.5, 40], "altitude_m": 450})", ""));
    // exact by definition: 1.8 °F per K, 0.3048 m per foot: 450 m = 1476.4 ft
    CHECK(sentence(request, "boxes[].site.humidity_percent") ==
          "Site: indoor, 18.5 °F to 104 °F, up to 85 % humidity without condensation, not above "
          "1476 ft, normal dust.");
}

TEST_CASE("equipment by text says what nobody gave") {
    const auto of = [](const std::string& equipment) {
        const auto request =
            good_request(small_request("", "\"equipment\": [" + equipment + "]", ""));
        for (const Assumption& each : request.assumptions)
            if (each.text.starts_with("No heat")) return each.text;
        return std::string("none");
    };
    const std::string all =
        R"(, "watts": 1, "amps_24v": 0, "width_mm": 1, "height_mm": 1, "depth_mm": 1)";
    const std::string power = R"(, "watts": 1, "amps_24v": 0)";
    CHECK(of(R"({"text": "Radio")" + all + "}") == "none");
    CHECK(of(R"({"part": "NET-8"})") == "none");
    CHECK(of(R"({"text": "Camera", "where": "outside", "watts": 0, "volts": 12, "current": "dc",
                 "amps": 1})") == "none");
    // sizes count only where it takes room; beside a text an unstated place is the rail
    CHECK(of(R"({"text": "Radio", "where": "door")" + power + "}") == "none");
    CHECK(of(R"({"text": "Radio", "where": "plate")" + power + "}") ==
          "No heat, current or size given for Radio; taken as none.");
    CHECK(of(R"({"text": "Radio")" + power + R"(}, {"text": "Clock"})") ==
          "No heat, current or size given for Clock, Radio; taken as none.");
}

TEST_CASE("voltages are printed off 24 V only") {
    const auto request = good_request(R"({"format": "backplate-request/1", "boxes": [{"points": [
        {"signal": "DI", "count": 1}, {"signal": "DO_AC", "count": 1},
        {"signal": "DI_AC", "count": 2}, {"signal": "DO_AC", "count": 3}, {"signal": "RTD", "count": 3}]}]})");
    CHECK(sentence(request, "boxes[].points[].volts") ==
          "Voltage of signals not stated: DO_AC 230 V, DI_AC 230 V.");
}

TEST_CASE("a request without anything open assumes nothing of that group") {
    const auto request = good_request(
        small_request(R"("job": {"valid_days": 30, "estimate_class": 3},
                         "commercial": {"tax_percent": 19, "delivery_term": "DAP"})",
                      R"("choices": {"room_percent": 10}, "site": {"fault_current_ka": 5})", ""));
    for (const Assumption& each : request.assumptions) {
        INFO(each.rule);
        CHECK_FALSE(each.rule.starts_with("defaults/job."));
        CHECK_FALSE(each.rule.starts_with("defaults/commercial."));
        CHECK(each.rule != "defaults/boxes[].choices.room_percent");
        CHECK(each.rule != "defaults/boxes[].site.fault_current_ka");
    }
}

TEST_CASE("equal assumptions of several boxes are printed once, others for each box") {
    Node request = tree_of(R"({"boxes": [{"points": []}, {"points": [], "controlled_by": "CP1",
        "site": {"altitude_m": 200, "ambient_c": [5, 30]}}]})");
    const DefaultValues defaults(starter_book(), false, Date::of(2026, 11, 24));
    const auto values = fill_defaults(request, starter_book(), defaults);
    const auto assumptions = assumptions_of(request, values, starter_book());
    const auto fields_of = [&](const std::string& lead) {
        std::string fields;
        for (const Assumption& each : assumptions)
            if (each.text.starts_with(lead)) fields += each.field + " ";
        return fields;
    };
    CHECK(text_at(request, "/boxes/1/name") == "\"CP2\"");
    CHECK(fields_of("Free mounting room: ") == "/boxes/0/choices/room_percent ");
    CHECK(fields_of("Site: ") == "/boxes/0/site/ambient_c /boxes/1/site/humidity_percent ");
    // only where another box holds the controller
    CHECK(fields_of("Connection of box CP2 to its controller: copper, 50 m.") ==
          "/boxes/1/link/medium ");
    CHECK(fields_of("Connection of box CP1") == "");
}

} // namespace
} // namespace backplate
