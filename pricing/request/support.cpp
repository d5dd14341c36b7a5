#include "pricing/request/support.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace backplate {
namespace {

/// Keys of which only some words are acted on.
struct Acted {
    std::string_view key;
    std::array<std::string_view, 2> words;
};
constexpr auto acted_words = std::array{
    Acted{"boxes[].controlled_by", {"own"}},
};
constexpr std::string_view boxes_key = "boxes";
constexpr std::size_t most_boxes = 1;

} // namespace

bool is_acted_on(const std::string& key, const Node& value) {
    if (key == boxes_key) return value.items.size() <= most_boxes;
    for (const Acted& each : acted_words)
        if (each.key == key && value.is(Node::Kind::text))
            return std::find(each.words.begin(), each.words.end(), value.text) != each.words.end();
    return true;
}

} // namespace backplate
