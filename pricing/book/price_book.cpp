#include "pricing/book/price_book.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "pricing/book/alike_parts.h"

namespace backplate {

PriceBook::PriceBook(std::vector<Part> parts, int issue) : issue_(issue) {
    std::sort(parts.begin(), parts.end(),
              [](const Part& a, const Part& b) { return a.key < b.key; });
    const auto twice = std::adjacent_find(
        parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.key == b.key; });
    if (twice != parts.end()) throw std::invalid_argument("part " + twice->key + " stands twice");
    demo_ = std::any_of(parts.begin(), parts.end(), [](const Part& part) { return part.demo; });
    for (Part& part : parts) part.known_net.keep(part.net_anew());
    Kinds kinds;
    for (std::size_t i = 0; i < parts.size(); ++i) kinds[parts[i].kind].push_back(i);
    std::vector<std::size_t> alike = first_alike(parts);
    std::size_t place = 0;
    const auto second = [&](std::size_t first) { return first != place++; };
    if (std::any_of(alike.begin(), alike.end(), second))
        alike_ = std::make_shared<const std::vector<std::size_t>>(std::move(alike));
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

PriceBook PriceBook::without_dearer_alike(const std::function<bool(const Part&)>& open,
                                          const std::function<bool(const Part&)>& stays) const {
    if (!alike_) return *this;
    const std::vector<Part>& parts = *parts_;
    constexpr auto none = static_cast<std::size_t>(-1);
    std::vector<std::size_t> cheapest(parts.size(), none); // by the first of those alike
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if ((open_ && !(*open_)[i]) || !parts[i].net() || !open(parts[i])) continue;
        std::size_t& best = cheapest[(*alike_)[i]];
        if (best == none || *parts[i].net() < *parts[best].net()) best = i;
    }
    return narrowed([&](const Part& part) {
        const auto i = static_cast<std::size_t>(&part - parts.data());
        const std::size_t best = cheapest[(*alike_)[i]];
        return best == none || best == i || !part.net() || stays(part);
    });
}

} // namespace backplate
