#include <algorithm>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/unknown_name.h"
#include "app/request_input.h"
#include "app/stored_data.h"
#include "pricing/book/part_fields.h"
#include "pricing/book/price_book.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

/// A part that stands to another: what it needs, what needs it.
struct Relation {
    std::string part;
    int quantity = 1;
    bool in_book = true;
};

/// What the page of one part says.
struct PartPage {
    const Part* part = nullptr;
    std::optional<int> age_days; ///< of its price; negative: it begins later
    bool price_ended = false;
    std::vector<Relation> needs, needed_by;
    std::vector<std::string> follows; ///< parts whose successor it is
    bool successor_in_book = false;
    std::vector<std::string> faults; ///< what the check says about it
};

PartPage page_of(const Part& part, const PriceBook& book, const std::vector<BookFault>& faults,
                 Date day) {
    PartPage page{&part, {}, part.valid_until && *part.valid_until < day, {}, {}, {}, false, {}};
    if (part.price_date) page.age_days = day.days - part.price_date->days;
    for (const Accessory& one : part.accessories)
        page.needs.push_back({one.part, one.quantity, book.find(one.part) != nullptr});
    for (const Part& other : book.parts()) {
        for (const Accessory& one : other.accessories)
            if (one.part == part.key) page.needed_by.push_back({other.key, one.quantity, true});
        if (other.successor == part.key) page.follows.push_back(other.key);
    }
    page.successor_in_book = book.find(part.successor) != nullptr;
    for (const BookFault& fault : faults)
        if (fault.part == part.key) page.faults.push_back(fault_line(fault));
    return page;
}

/// The unit of a field, money in the currency of the book.
std::string unit_of(const PartField& field, const std::string& currency) {
    return field.unit == "currency" ? currency : std::string(field.unit);
}

Json relations_json(const std::vector<Relation>& relations) {
    Json list = Json::array();
    for (const Relation& one : relations)
        list.push_back({{"part", one.part}, {"quantity", one.quantity}, {"in_book", one.in_book}});
    return list;
}

Json page_json(const PartPage& page, const std::string& currency) {
    const Part& part = *page.part;
    Json fields = Json::array();
    for (const PartField& field : part_fields()) {
        const std::string value = field.write(part), unit = unit_of(field, currency);
        fields.push_back({{"field", field.key},
                          {"value", value.empty() ? Json(nullptr) : Json(value)},
                          {"unit", unit.empty() ? Json(nullptr) : Json(unit)},
                          {"explanation", field.explanation}});
    }
    const auto net = part.net();
    return {{"part", part.key},
            {"demo_data", part.demo},
            {"net", net ? Json(net->unit_text(2)) : Json(nullptr)},
            {"currency", currency},
            {"price_age_days", page.age_days ? Json(*page.age_days) : Json(nullptr)},
            {"price_ended", page.price_ended},
            {"fields", fields},
            {"needs", relations_json(page.needs)},
            {"needed_by", relations_json(page.needed_by)},
            {"successor", part.successor.empty() ? Json(nullptr) : Json(part.successor)},
            {"successor_of", page.follows},
            {"faults", page.faults}};
}

std::string age_text(const PartPage& page) {
    if (!page.part->list) return "no price";
    if (!page.age_days) return "price without a date";
    std::string text = *page.age_days < 0
                           ? fmt::format("price begins in {}", counted(-*page.age_days, "day"))
                           : fmt::format("price is {} old", counted(*page.age_days, "day"));
    return page.price_ended ? text + ", its validity has ended" : text;
}

void print_line(std::string_view name, std::string_view text) {
    fmt::print("  {:<17} {}\n", name, text);
}

void print_relations(std::string_view name, const std::vector<Relation>& relations) {
    for (const Relation& one : relations)
        print_line(name, fmt::format("{} x {}{}", one.quantity, one.part,
                                     one.in_book ? "" : " (not in the price book)"));
}

/// A default that says nothing about parts of this kind: the phases of a front connector.
bool says_nothing(const PartField& field, const Part& part) {
    static const Part blank;
    return !field.kinds.empty() && field.kinds.find(part.kind) == std::string_view::npos &&
           field.write(part) == field.write(blank);
}

void print_page(const PartPage& page, const std::string& currency) {
    const Part& part = *page.part;
    fmt::print("{}{}\n", part.key, part.demo ? " (demo data)" : "");
    for (const PartField& field : part_fields()) {
        const std::string value = field.write(part);
        if (value.empty() || field.key == "part" || field.key == "accessory") continue;
        if (says_nothing(field, part)) continue;
        const std::string unit = unit_of(field, currency);
        print_line(field.key, fmt::format("{}{}{}  - {}", value, unit.empty() ? "" : " ", unit,
                                          field.explanation));
    }
    if (const auto net = part.net())
        print_line("net price",
                   fmt::format("{} {} per {}", net->unit_text(2), currency, part.unit));
    print_line("age", age_text(page));
    print_relations("needs", page.needs);
    print_relations("needed by", page.needed_by);
    for (const std::string& other : page.follows) print_line("takes the place of", other);
    if (!part.successor.empty() && !page.successor_in_book)
        print_line("", "its successor is not in the price book");
    for (const std::string& fault : page.faults) print_line("check", fault);
}

} // namespace

int run_parts_show(const std::vector<std::string>& parts, const CommonArguments& common) {
    const LibraryContent content = load_content(common.library);
    const PriceBook book(content.parts, content.prices_issue);
    std::vector<std::string> names;
    for (const Part& part : book.parts()) names.push_back(part.key);
    const auto faults = check_book(book);
    std::vector<PartPage> pages;
    for (const std::string& name : parts) {
        const Part* part = book.find(name);
        if (!part) refuse_unknown(name, "part of the price book", names);
        pages.push_back(page_of(*part, book, faults, today()));
    }
    const std::string currency = book_currency(content.rules);
    if (common.json) {
        Json list = Json::array();
        for (const PartPage& page : pages) list.push_back(page_json(page, currency));
        const Json result{{"issue", content.prices_issue}, {"parts", list}};
        fmt::print("{}\n", result.dump(2));
        return done;
    }
    for (std::size_t i = 0; i < pages.size(); ++i) {
        if (i > 0) fmt::print("\n");
        print_page(pages[i], currency);
    }
    return done;
}

} // namespace backplate
