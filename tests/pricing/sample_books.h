#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "catalog/exchange/price_csv.h"
#include "catalog/exchange/request_json.h"
#include "catalog/exchange/rules_csv.h"
#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"
#include "pricing/request/check_request.h"

namespace backplate {

/// The rule book of the starter rows, made once.
inline const RuleBook& starter_rules() {
    static const RuleBookResult made =
        make_rule_book(read_rules_dir(BACKPLATE_SOURCE_TREE "/catalog/starter/rules"));
    if (!made.book) throw std::runtime_error("the starter rules make no book");
    return *made.book;
}

/// The parts of the demo price book, read once.
inline const std::vector<Part>& demo_parts() {
    static const std::vector<Part> parts = read_parts_dir(BACKPLATE_SOURCE_TREE "/demo/prices");
    return parts;
}

inline PriceBook demo_book() { return PriceBook(demo_parts(), 1); }

/// A request from JSON text, checked on 2026-11-24; throws naming the first fault.
inline BidRequest request_of(const std::string& json) {
    CheckedRequest result =
        check_request(parse_json("sample", json).root, starter_rules(), Date::of(2026, 11, 24));
    if (!result.request)
        throw std::runtime_error(result.faults.front().where + ": " + result.faults.front().text);
    return *std::move(result.request);
}

/// Lines of points as JSON from pairs of signal and count.
inline std::string points_text(const std::vector<std::pair<std::string, int>>& points) {
    std::string list;
    for (const auto& [signal, count] : points)
        list += (list.empty() ? "" : ", ") + (R"({"signal": ")" + signal + R"(", "count": )") +
                std::to_string(count) + "}";
    return list;
}

/// A job of one box with these lines of points; more: further members of the box.
inline std::string box_request(const std::string& points, const std::string& more = {},
                               const std::string& job = {}) {
    return R"({"format": "backplate-request/1")" + job + R"(, "boxes": [{"points": [)" + points +
           "]" + more + "}]}";
}

/// Small numbers for property tests, the same on every machine.
class Draws {
public:
    explicit Draws(std::uint64_t seed) : state_(seed * 0x9e3779b97f4a7c15u + 1) {}
    /// From low to high, both included.
    int between(int low, int high) {
        state_ ^= state_ << 13;
        state_ ^= state_ >> 7;
        state_ ^= state_ << 17;
        const auto span = static_cast<std::uint64_t>(high - low + 1);
        return low + static_cast<int>((state_ >> 11) % span);
    }
    bool chance(int percent) { return between(1, 100) <= percent; }

private:
    std::uint64_t state_;
};

} // namespace backplate
