#include "tests/pricing/request/starter_book.h"

#include <catch2/catch.hpp>

#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "catalog/exchange/rules_csv.h"

namespace backplate {

const RuleBook& starter_book() {
    static const RuleBookResult made =
        make_rule_book(read_rules_dir(BACKPLATE_SOURCE_TREE "/catalog/starter/rules"));
    REQUIRE(made.book);
    return *made.book;
}

Node tree_of(const std::string& json) { return parse_json("test", json).root; }

std::string test_file(const std::string& path) {
    return read_file(BACKPLATE_SOURCE_TREE "/tests/" + path);
}

CheckedRequest checked(const Node& sent) {
    return check_request(sent, starter_book(), Date::of(2026, 11, 24));
}

BidRequest good_request(const std::string& json) {
    CheckedRequest result = checked(tree_of(json));
    for (const RequestFault& fault : result.faults) UNSCOPED_INFO(fault.where + ": " + fault.text);
    REQUIRE(result.faults.empty());
    REQUIRE(result.request);
    return *std::move(result.request);
}

std::string small_request(const std::string& job_members, const std::string& box_members,
                          const std::string& line_members) {
    const auto more = [](const std::string& members) {
        return members.empty() ? members : ", " + members;
    };
    return R"({"format": "backplate-request/1")" + more(job_members) +
           R"(, "boxes": [{"points": [{"signal": "DI", "count": 4)" + more(line_members) + "}]" +
           more(box_members) + "}]}";
}

} // namespace backplate
