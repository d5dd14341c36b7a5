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
    Kinds kinds;
    for (std::size_t i = 0; i < parts.size(); ++i) kinds[parts[i].kind].push_back(i);
    parts_ = std::make_shared<const std::vector<Part>>(std::move(parts));
    kinds_ = std::make_shared<const Kinds>(std::move(kinds));
}

const Part* PriceBook::find(std::string_view key) const {
    const auto found = std::lower_bound(
        parts_->begin(), parts_->end(), key,
        [](const Part& part, std::string_view wanted) { return part.key < wanted; });
    return found != parts_->end() && found->key == key ? &*found : nullptr;
}

std::vector<const Part*> PriceBook::of_kind(std::string_view kind) const {
    std::vector<const Part*> found;
    const auto places = kinds_->find(kind);
    if (places == kinds_->end()) return found;
    for (const std::size_t i : places->second)
        if (!open_ || (*open_)[i]) found.push_back(&(*parts_)[i]);
    return found;
}

PriceBook PriceBook::narrowed(const std::function<bool(const Part&)>& open) const {
    std::vector<bool> admitted;
    for (std::size_t i = 0; i < parts_->size(); ++i)
        admitted.push_back((!open_ || (*open_)[i]) && open((*parts_)[i]));
    PriceBook result = *this;
    result.open_ = std::make_shared<const std::vector<bool>>(std::move(admitted));
    return result;
}

} // namespace backplate
