#include "pricing/panel/housing.h"

#include <algorithm>

#include "pricing/panel/cooling.h"
#include "pricing/panel/site_limits.h"

namespace backplate {
namespace {

bool material_fits(const Part& enclosure, const BoxFacts& facts) {
    const Choices& choices = facts.box->choices;
    if (choices.material == "any")
        return place_allows_material(facts.box->site, enclosure.material, *facts.rules);
    return enclosure.material == choices.material;
}

/// A plate of which nothing but its size and its mounting is known.
Part bare_plate(double width_mm, double height_mm, std::string mounting) {
    Part plate;
    plate.kind = "plate";
    plate.mounting = std::move(mounting);
    plate.plate_width_mm = width_mm;
    plate.plate_height_mm = height_mm;
    plate.list = Money{};
    return plate;
}

bool same_plate(const Part& a, const Part& b) {
    return a.plate_width_mm == b.plate_width_mm && a.plate_height_mm == b.plate_height_mm &&
           a.mounting == b.mounting;
}

/// The sizes that are made, from the smallest on; mark and material are the client's affair.
std::vector<Part> plates_that_are_made(const PriceBook& book, const Site& site) {
    std::vector<Part> plates;
    for (const Part* part : book.of_kind("enclosure")) {
        if (!part->plate_width_mm || !part->plate_height_mm || !within_size(*part, site)) continue;
        Part plate = bare_plate(*part->plate_width_mm, *part->plate_height_mm, part->mounting);
        const bool known = std::any_of(plates.begin(), plates.end(),
                                       [&](const Part& other) { return same_plate(other, plate); });
        if (!known) plates.push_back(std::move(plate));
    }
    std::stable_sort(plates.begin(), plates.end(),
                     [](const Part& a, const Part& b) { return plate_area(a) < plate_area(b); });
    return plates;
}

/// Kept, or in the place of another: it stands, with a finding where a rule disagrees.
bool named_by_hand(const std::string& key, const Choices& choices) {
    return std::any_of(choices.keep.begin(), choices.keep.end(),
                       [&](const KeptPart& kept) { return kept.part == key; }) ||
           std::any_of(choices.replace.begin(), choices.replace.end(),
                       [&](const ReplacedPart& each) { return each.by == key; });
}

void add_enclosures(Housing& housing, const PriceBook& book, const BoxFacts& facts) {
    for (const Part* part : book.of_kind("enclosure")) {
        if (!usable_enclosure(*part, facts)) continue;
        const int most = most_in_suite(*part, *facts.rules);
        for (Suite suite(*part); suite.pieces <= most; ++suite.pieces)
            if (within_size(suite, facts.box->site)) housing.candidates.push_back(suite);
    }
}

void add_plates(Housing& housing, const PriceBook& book, const BoxFacts& facts) {
    for (const Part* part : book.of_kind("plate"))
        if (may_choose(*part, *facts.box, *facts.request) && part->plate_width_mm &&
            within_size(*part, facts.box->site))
            housing.candidates.emplace_back(*part);
}

} // namespace

Housing housing_of(const PriceBook& book, const BoxFacts& facts) {
    Housing housing;
    const Choices& choices = facts.box->choices;
    const EnclosureChoice choice = choices.enclosure;
    const bool box = choice == EnclosureChoice::choose || choice == EnclosureChoice::part;
    housing.walls_known = box;
    housing.bought = box || choice == EnclosureChoice::plate_only;
    housing.prepared = box || choice == EnclosureChoice::by_client;
    if (box) add_enclosures(housing, book, facts);
    if (choice == EnclosureChoice::plate_only) add_plates(housing, book, facts);
    if (choice == EnclosureChoice::existing_plate)
        housing.given = {bare_plate(choices.plate_width_mm, choices.plate_height_mm, "wall")};
    if (choice == EnclosureChoice::by_client)
        housing.given = plates_that_are_made(book, facts.box->site);
    for (const Part& plate : housing.given) housing.candidates.emplace_back(plate);
    return housing;
}

bool usable_enclosure(const Part& part, const BoxFacts& facts) {
    const Box& box = *facts.box;
    if (!may_choose(part, box, *facts.request) || !part.plate_width_mm) return false;
    if (!box.choices.enclosure_part.empty()) return part.key == box.choices.enclosure_part;
    if (named_by_hand(part.key, box.choices)) return true;
    return part_meets(part, box.site.protection, *facts.rules) && material_fits(part, facts);
}

bool within_size(const Suite& enclosure, const Site& site) {
    const auto fits = [](const std::optional<double>& own, int pieces,
                         const std::optional<double>& most) {
        return !most || pieces * own.value_or(0) <= *most;
    };
    return fits(enclosure->width_mm, enclosure.pieces, site.max_width_mm) &&
           fits(enclosure->height_mm, 1, site.max_height_mm) &&
           fits(enclosure->depth_mm, 1, site.max_depth_mm);
}

std::string no_candidate_text(const PriceBook& book, const Box& box, const RuleBook& rules) {
    const Choices& choices = box.choices;
    if (choices.enclosure == EnclosureChoice::part)
        return "enclosure " + choices.enclosure_part +
               (book.find(choices.enclosure_part)
                    ? " is excluded, has no plate or price, or is larger than the size stated"
                    : " is not in the price book");
    if (choices.enclosure == EnclosureChoice::plate_only)
        return "no mounting plate (kind plate) within the size stated in the price book";
    if (choices.enclosure == EnclosureChoice::by_client)
        return "no enclosure of the price book shows a plate size within the size stated";
    const std::string allowed = allowed_materials(box.site, rules);
    return "no enclosure of the price book has the mark " + box.site.protection +
           ", the material and the size asked" +
           (choices.material == "any" && !allowed.empty()
                ? " (corrosion " + box.site.corrosion + " asks for " + allowed + ")"
                : "");
}

std::int64_t price_of(const Suite& enclosure) {
    return enclosure.pieces * enclosure->net()->steps();
}

double plate_area(const Suite& enclosure) {
    return enclosure.pieces * enclosure->plate_width_mm.value_or(0) *
           enclosure->plate_height_mm.value_or(0);
}

} // namespace backplate
