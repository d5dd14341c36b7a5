#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/part.h"

namespace backplate {

/// A snapshot of the parts that the engine may choose or the request may name, sorted by key.
class PriceBook {
public:
    PriceBook() = default;
    /// Sorts the parts by key; keys must be unique (throws std::invalid_argument otherwise).
    PriceBook(std::vector<Part> parts, int issue);

    int issue() const { return issue_; }
    bool demo_data() const { return demo_; }
    const std::vector<Part>& parts() const { return *parts_; }
    const Part* find(std::string_view key) const;
    /// Parts of one kind in the order of their keys.
    std::vector<const Part*> of_kind(std::string_view kind) const;
    /// The same parts, of which of_kind gives only those that `open` admits.
    PriceBook narrowed(const std::function<bool(const Part&)>& open) const;
    /// The same parts, of which of_kind leaves out those that a part alike and no dearer stands in
    /// for, where both have a price and are admitted by `open`; of equals the first stays. Parts
    /// that `stays` admits are not left out.
    PriceBook without_dearer_alike(const std::function<bool(const Part&)>& open,
                                   const std::function<bool(const Part&)>& stays) const;

private:
    using Kinds = std::map<std::string, std::vector<std::size_t>, std::less<>>;
    std::shared_ptr<const std::vector<Part>> parts_ = std::make_shared<std::vector<Part>>();
    std::shared_ptr<const Kinds> kinds_ = std::make_shared<Kinds>(); ///< places of the parts
    std::shared_ptr<const std::vector<std::size_t>> alike_; ///< first_alike; null: no two are
    std::shared_ptr<const std::vector<bool>> open_;         ///< by part; null: all
    int issue_ = 1;
    bool demo_ = false;
};

/// What keeps a part or a platform from being used, in plain words.
struct BookFault {
    std::string part;  ///< or "platform NAME"; empty: the whole book
    std::string field; ///< empty: the whole
    std::string text;  ///< "has no width: no room can be found for it"
};

/// "VC-210 has no width: no room can be found for it (column width_mm: a number from 0 to 5000 mm)"
std::string fault_line(const BookFault& fault);

/// Completeness: required fields per kind, accessories that exist, platforms with a controller
/// and modules, supplies, enclosures, terminals, rail, duct, wire, incoming devices.
std::vector<BookFault> check_book(const PriceBook& book);

/// Remarks, no faults: which of the signals no module or controller of a platform serves, modules
/// without bus current where their platform counts it, prices missing or without a date,
/// allowances.
std::vector<BookFault> book_remarks(const PriceBook& book, const std::vector<std::string>& signals);

} // namespace backplate
