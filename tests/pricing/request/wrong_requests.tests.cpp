// Every file of tests/lists/wrong_requests holds one request with a fault. Its first two lines say
// where the fault is and what its text holds, and what cures it; cured, the request passes. Places
// and texts follow the rows of `defaults` and `words`; the wording is our own output.

#include <algorithm>
#include <filesystem>

#include <catch2/catch.hpp>

#include "catalog/exchange/request_json.h"
#include "tests/pricing/request/starter_book.h"

namespace backplate {
namespace {

constexpr std::size_t floor_of_cases = 70;

struct WrongRequest {
    std::string name, where, text, cure;
    Node sent;
};

/// The first line that starts with the mark, without it.
std::string marked_line(const std::string& file, const std::string& mark) {
    const auto at = file.find(mark);
    REQUIRE(at != std::string::npos);
    const auto start = at + mark.size();
    return file.substr(start, file.find('\n', start) - start);
}

std::vector<WrongRequest> wrong_requests() {
    std::vector<WrongRequest> result;
    const std::filesystem::path folder = BACKPLATE_SOURCE_TREE "/tests/lists/wrong_requests";
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        const std::string file = test_file("lists/wrong_requests/" + name);
        const std::string expected = marked_line(file, "// expect: ");
        const auto bar = expected.find(" | ");
        REQUIRE(bar != std::string::npos);
        result.push_back({name, expected.substr(0, bar), expected.substr(bar + 3),
                          marked_line(file, "// cure: "), parse_json(name, file).root});
    }
    return result;
}

/// "remove POINTER" or "set POINTER JSON".
Node cured(const WrongRequest& wrong) {
    Node request = wrong.sent;
    const auto blank = wrong.cure.find(' ');
    const auto end = wrong.cure.find(' ', blank + 1);
    const std::string pointer = wrong.cure.substr(blank + 1, end - blank - 1);
    if (wrong.cure.starts_with("set ")) {
        Node* target = make_at_pointer(request, pointer);
        REQUIRE(target);
        *target = parse_json(wrong.name, wrong.cure.substr(end + 1)).root;
        return request;
    }
    REQUIRE(at_pointer(request, pointer));
    const auto stroke = pointer.rfind('/');
    Node* owner = make_at_pointer(request, pointer.substr(0, stroke));
    if (owner->is(Node::Kind::list))
        owner->items.erase(owner->items.begin() + std::stol(pointer.substr(stroke + 1)));
    else
        owner->erase(pointer.substr(stroke + 1));
    return request;
}

std::string joined(const std::vector<RequestFault>& faults) {
    std::string text;
    for (const RequestFault& fault : faults) text += fault.where + ": " + fault.text + "\n";
    return text;
}

TEST_CASE("every wrong request is refused at its place and passes once cured") {
    const auto all = wrong_requests();
    for (const WrongRequest& wrong : all) {
        INFO(wrong.name);
        const CheckedRequest refused = checked(wrong.sent);
        INFO("faults:\n" << joined(refused.faults));
        CHECK_FALSE(refused.request);
        CHECK(std::any_of(refused.faults.begin(), refused.faults.end(),
                          [&](const RequestFault& fault) {
                              return fault.where == wrong.where &&
                                     fault.text.find(wrong.text) != std::string::npos;
                          }));
        const CheckedRequest passed = checked(cured(wrong));
        INFO("faults once cured:\n" << joined(passed.faults));
        CHECK(passed.request);
    }
    WARN(all.size() << " wrong requests judged");
    CHECK(all.size() >= floor_of_cases);
}

} // namespace
} // namespace backplate
