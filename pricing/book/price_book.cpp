#include "pricing/book/price_book.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

namespace backplate {

PriceBook::PriceBook(std::vector<Part> parts, int issue) : issue_(issue) {
    std::sort(parts.begin(), parts.end(),
              [](const Part& a, const Part& b) { return a.key < b.key; });
    const auto twice = std::adjacent_find(
        parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.key == b.key; });
    if (twice != parts.end()) throw std::invalid_argument("part " + twice->key + " stands twice");
    demo_ = std::any_of(parts.begin(), parts.end(), [](const Part& part) { return part.demo; });
    parts_ = std::make_shared<const std::vector<Part>>(std::move(parts));
}

const Part* PriceBook::find(std::string_view key) const {
    const auto found = std::lower_bound(
        parts_->begin(), parts_->end(), key,
        [](const Part& part, std::string_view wanted) { return part.key < wanted; });
    return found != parts_->end() && found->key == key ? &*found : nullptr;
}

std::vector<const Part*> PriceBook::of_kind(std::string_view kind) const {
    std::vector<const Part*> found;
    for (const Part& part : *parts_)
        if (part.kind == kind) found.push_back(&part);
    return found;
}

} // namespace backplate
