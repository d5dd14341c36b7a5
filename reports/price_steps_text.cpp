#include "reports/price_steps_text.h"

#include <algorithm>
#include <array>
#include <utility>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

/// Kinds of parts whose key is no word of the trade.
constexpr auto kind_words = std::array{
    std::pair{std::string_view("head"), std::string_view("coupler")},
    std::pair{std::string_view("feed"), std::string_view("bus supply")},
    std::pair{std::string_view("supply"), std::string_view("24 V supply")},
    std::pair{std::string_view("protection"), std::string_view("24 V protection channel")},
    std::pair{std::string_view("incoming"), std::string_view("incoming device")},
    std::pair{std::string_view("device"), std::string_view("device")}};

std::string kind_text(const std::string& kind) {
    for (const auto& [key, words] : kind_words)
        if (kind == key) return std::string(words);
    std::string text = kind;
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

/// "A", "2 × A and B"; `counted`: with the number even where each is one.
std::string parts_text(const std::vector<PartCount>& parts, bool counted) {
    std::string text;
    for (const PartCount& each : parts)
        text += (text.empty() ? "" : " and ") +
                (counted ? steps_text(each.quantity, 0) + " × " : std::string()) + each.part;
    return text;
}

bool single(const std::vector<PartCount>& parts) {
    return parts.size() == 1 && parts.front().quantity == 1;
}

} // namespace

std::string change_text(const DeviceChange& change, const std::string& box_of_points) {
    const std::string kind = kind_text(change.kind);
    const std::string place = change.box == box_of_points ? "" : "in box " + change.box + ": ";
    const auto only = [&](const std::vector<PartCount>& parts, const char* word) {
        std::string text;
        for (const PartCount& each : parts)
            text += (text.empty() ? "" : ", ") + steps_text(each.quantity, 0) + " " + word + " " +
                    kind + " " + each.part;
        return place + text;
    };
    if (change.removed.empty()) return only(change.added, "more");
    if (change.added.empty()) return only(change.removed, "fewer");
    const bool counted = !single(change.added) || !single(change.removed);
    return place + kind + " " + parts_text(change.added, counted) + " instead of " +
           parts_text(change.removed, counted);
}

std::string step_text(const PriceStep& step, const std::string& box_of_points) {
    if (!step.price) return "nothing builds it: " + step.limits;
    std::string text;
    for (const DeviceChange& change : step.changes)
        text += (text.empty() ? "" : "; ") + change_text(change, box_of_points);
    return text;
}

} // namespace backplate
