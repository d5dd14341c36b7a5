#include "catalog/exchange/job_file.h"

#include <catch2/catch.hpp>

#include "catalog/exchange/estimate_file.h"
#include "pricing/values/faults.h"

using namespace backplate;

namespace {

/// As much of an estimate as is read again: 2 × 3.00 for each of two boxes, 1.5 h at 40.00.
std::string estimate_text(const std::string& price = "82.50") {
    return R"({"format": "backplate-estimate/1", "issue": {"prices": 4, "rules": 2},
        "demo_data": true, "buildable": true,
        "request": {"job": {"title": "Kiln", "due": "2026-12-01"}},
        "assumptions": [{"field": "/spare", "text": "Spare as taken."}],
        "points": [{"box": "CP1", "signal": "DI", "used": 8, "required": 10, "fitted": 16}],
        "boxes": [{"name": "CP1", "quantity": 2, "modules": [{"part": "M", "quantity": 1}]}],
        "bill": [{"box": "CP1", "part": "M", "description": "module", "role": "module",
                  "quantity": 2, "unit_net": "3.00", "line_all": "12.00"},
                 {"box": "CP1", "part": null, "description": "sundries", "role": "sundries",
                  "quantity": 1, "unit_net": null, "line_all": null}],
        "labour": [{"box": null, "activity": "test", "class": "test", "hours": 1.500,
                    "rate": "40.00", "cost": "60.00"}],
        "price": {"currency": "EUR", "freight": "1.00", "contingency": "2.00", "overhead": "3.00",
                  "margin": "5.00", "concession": "1.00", "rounding": "0.50", "price": ")" +
           price + R"("}})";
}

Stamp on(int day) { return {"2026-11-24T09:30:00Z", "estimator", Date::of(2026, 11, day)}; }

JobRevision revision() {
    return revision_of("estimate", "{\"format\": \"backplate-request/1\"} // as given\n",
                       estimate_text(),
                       {{"parts", "M", R"({"key":"M","note":"a \"b\" \u00fc/"})"},
                        {"rates", "test", R"({"value":"40"})"}});
}

/// Sent, revised, a copy with values to be confirmed.
Job full_job() {
    Job job = new_job("Kiln \u00fc", revision(), on(1));
    job.number = 7;
    job.copied_from = Template{3, 2};
    send(job, revision(), {{"quote.xlsx", std::string("PK\0\xff\n", 5)}}, on(2));
    revise(job, revision(), "more pumps", on(3));
    job.unconfirmed = {{"/job/title", "\"Kiln\""}, {"/spare", ""}};
    for (JobRevision& each : job.revisions)
        for (UsedRow& row : each.rows)
            if (row.table == "parts")
                row.cells = "{\"key\":\"M\",\"note\":\"a \\\"b\\\" \u00fc/\"}";
    return job;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("an estimate is read back as far as it is compared") {
    const EstimateRecord record = read_estimate("e.json", estimate_text());
    REQUIRE(record.priced);
    CHECK(adds_up(*record.priced));
    CHECK(record.priced->bill.at(0).quantity == 4);
    CHECK(record.priced->bill.at(0).item == "M, module");
    CHECK(record.priced->bill.at(1).item == "sundries, sundries");
    CHECK(record.priced->labour.at(0).quantity == 1500);
    CHECK(record.prices_issue == 4);
    CHECK(record.due == "2026-12-01");
    CHECK(record.points.at(0).fitted == 16);
    CHECK(record.points.at(0).boxes == 2);
    CHECK_THROWS_WITH(read_estimate("e.json", estimate_text("82.51")),
                      Catch::Contains("e.json: /price/price: is \"82.51\", expected the sum"));
}

TEST_CASE("differences of two estimates name what changed") {
    const EstimateRecord before = read_estimate("e", estimate_text());
    EstimateRecord after = before;
    after.points[0].used = 9;
    after.modules[0].part = "N";
    after.priced->labour[0].quantity = 2000;
    after.assumptions.clear();
    std::vector<std::string> said;
    for (const RecordChange& change : differences(before, after))
        said.push_back(change.what + " " + change.name + ": " + change.before + " > " +
                       change.after);
    CHECK(said ==
          std::vector<std::string>{
              "points CP1 DI: 8 used, 10 required, 16 fitted > 9 used, 10 required, 16 fitted",
              "points all: 16 used > 18 used", "modules CP1 N:  > 1", "modules CP1 M: 1 > ",
              "hours test, test: 1.500 h > 2.000 h", "hours all: 1.500 h > 2.000 h",
              "price price: 82.50 EUR > 82.50 EUR", "assumptions /spare: Spare as taken. > "});
}

TEST_CASE("a box that was renamed is compared with the one at its place") {
    const EstimateRecord before = read_estimate("e", estimate_text());
    EstimateRecord after = before;
    after.boxes[0] = after.points[0].box = after.modules[0].box = "CP9";
    for (auto* lines : {&after.priced->bill, &after.priced->labour})
        for (PricedLine& line : *lines)
            if (!line.box.empty()) line.box = "CP9";
    const EstimateRecord renamed = in_boxes_of(before, after);
    CHECK(differences(renamed, after).size() == 3); // the sums alone
    CHECK(compare(*renamed.priced, *after.priced).bill.empty());
    EstimateRecord more = after;
    more.boxes.push_back("CP2");
    CHECK(in_boxes_of(before, more).points[0].box == "CP1");
}

TEST_CASE("a revision takes price, day and issues from the estimate") {
    const JobRevision made = revision();
    CHECK(made.price == "82.50");
    CHECK(made.currency == "EUR");
    CHECK(made.due == "2026-12-01");
    CHECK(made.prices_issue == 4);
    CHECK(made.rules_issue == 2);
    CHECK(made.demo_data);
}

TEST_CASE("a job file gives the job back, and the same text again") {
    const Job job = full_job();
    const std::string text = job_text(job);
    CHECK(read_job_text("job.json", text) == job);
    CHECK(job_text(read_job_text("job.json", text)) == text);
}

TEST_CASE("a job file cut short anywhere is refused") {
    const std::string text = job_text(full_job());
    int refused = 0;
    for (std::size_t size = 0; size + 2 < text.size(); size += 7, ++refused)
        CHECK_THROWS_AS(read_job_text("job.json", text.substr(0, size)), BadInput);
    CHECK(refused > 500);
}

TEST_CASE("a job file that nobody wrote is refused, place and expectation named") {
    struct Row {
        const char *from, *to, *words;
    };
    const Row rows[] = {
        {"backplate-job/1", "backplate-job/2", "/format: is \"backplate-job/2\", expected"},
        {"\"number\": 7", "\"number\": 0", "/number: is 0, expected a whole number from 1"},
        {"\"number\": 7", "\"nummer\": 7", "/number: is absent, expected it"},
        {"\"title\"", "\"owner\": 1,\n  \"title\"", "/owner: is no key"},
        {"\"revision\": 1,", "\"revision\": 2,",
         "/revisions/0/revision: is 2, expected revision 1"},
        {"2026-11-24T09:30:00Z", "yesterday", "/revisions/0/saved_at: is \"yesterday\", expected"},
        {"quote.xlsx", "../quote.xlsx", "/name: is \"../quote.xlsx\", expected a file name"},
        {"quote.xlsx", ".bashrc", "expected a file name"},
        {"UEsA/wo=", "UEsA/wo", "/base64: is \"UEsA/wo\", expected bytes in base64"},
        {"backplate-request/1", "backplate-request/9", "expected a backplate-request/1"},
        {"backplate-estimate/1", "backplate-estimate/9", "text of /revisions/0/estimate"},
        {"82.50", "82.60", "expected the sum of bill, labour and price chain"},
        {"\"state\": \"sent\"", "\"state\": \"lent\"", "/states/1/state: is \"lent\", expected"},
        {"\"day\": \"2026-11-02\"", "\"day\": \"2026-11-31\"", "/states/1/day"},
        {"\"copied_from\": {\n    \"job\": 3,\n    \"revision\": 2\n  }", "\"copied_from\": null",
         "/unconfirmed: is a list, expected nothing where the job is no copy"},
        {"\"field\": \"/spare\"", "\"field\": \"/job/title\"",
         "/unconfirmed: is a list, expected every name in it once"},
        {"\"key\": \"test\"", "\"key\": \"\"",
         "/key: is \"\", expected a text that says something"},
        {"\"value\": \"40\"", "\"value\": 40", "/cells/value: is 40, expected a text"},
    };
    const std::string text = job_text(full_job());
    for (const Row& row : rows) {
        CAPTURE(row.from, row.to);
        CHECK_THROWS_WITH(read_job_text("job.json", replaced(text, row.from, row.to)),
                          Catch::StartsWith("job.json: ") && Catch::Contains(row.words));
    }
}
