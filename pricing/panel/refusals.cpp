#include "pricing/panel/refusals.h"

#include <algorithm>

#include "pricing/values/document_units.h"

namespace backplate {
namespace {

std::int64_t width_of(const RoomNeed& need) {
    std::int64_t width = 0;
    for (const BandNeed& band : need.bands) width += band.width;
    return width;
}

Suite largest_plate(const SearchFacts& search) {
    const auto& all = search.housing.candidates;
    return *std::max_element(all.begin(), all.end(), [](const Suite& a, const Suite& b) {
        return plate_area(a) < plate_area(b);
    });
}

/// The height at which a plate of this width would hold the devices; nothing where none does.
std::optional<double> height_needed(const RoomNeed& need, const Part& plate, Percent reserve,
                                    const RoomRules& rules) {
    Part tall = plate;
    tall.plate_height_mm = 1e6;
    const auto plan = room_plan(need, tall, reserve, rules);
    if (!plan) return std::nullopt;
    return static_cast<double>(plan->used_height) / 10;
}

/// The most free room, in whole percent below what was asked, with which the plate is enough.
std::optional<Percent> room_that_fits(const RoomNeed& need, const Suite& plate, Percent asked,
                                      const RoomRules& rules) {
    const std::int64_t one = Percent::whole(1).steps();
    for (std::int64_t steps = (asked.steps() - 1) / one * one; steps >= 0; steps -= one)
        if (room_plan(need, plate, Percent::of_steps(steps), rules))
            return Percent::of_steps(steps);
    return std::nullopt;
}

std::string room_text(const SearchFacts& search, const RoomNeed& need) {
    const Suite plate = largest_plate(search);
    const bool alone = plate.pieces == 1;
    const Choices& choices = search.facts.box->choices;
    const RoomRules& rules = search.rules->room;
    const double width = *plate->plate_width_mm;
    const bool existing = choices.enclosure == EnclosureChoice::existing_plate;
    std::string text = existing ? "room: the existing plate of " : "room: the largest plate of ";
    if (!alone) text = "room: " + steps_text(plate.pieces, 0) + " plates side by side of ";
    const bool inch = search.facts.request->inch;
    text += plate_text(width, plate->plate_height_mm.value_or(0), inch);
    if (!plate->key.empty()) text += " (" + plate->key + ")";
    text += std::string(alone ? " does" : " do") + " not hold the devices and " +
            choices.room.text() + " % free room";
    if (const auto height = height_needed(need, *plate, choices.room, rules))
        text += ", which ask for " + plate_text(width, *height, inch) + " at that width" +
                (alone ? "" : " on one plate");
    else
        text += ": a device is wider than its rail";
    if (const auto fits = room_that_fits(need, plate, choices.room, rules))
        text += "; with " + fits->text() + " % free room it would";
    return text;
}

std::string heat_text(const SearchFacts& search, const Refusals& refusals) {
    return "heat: at least " + number_text(refusals.least_inside, 1) + " W inside at " +
           temperature_text(search.facts.box->site.ambient_high_c, search.facts.request->inch) +
           " outside, at most " + number_text(static_cast<double>(refusals.most_shed) / 1000, 1) +
           " W can be shed below the limit of the parts";
}

/// "2 poles, 110 V DC".
std::string poles_text(const SearchFacts& search) {
    const Site& site = search.facts.box->site;
    return steps_text(poles_needed(site, *search.rules), 0) + " poles, " +
           steps_text(site.phases, 0) + " phase, " + number_text(site.volts) + " V" +
           (direct_current(site) ? " DC" : "");
}

} // namespace

void Refusals::note(Refusal refusal, const PanelDesign& design) {
    ++count[refusal];
    if (refusal == Refusal::heat) least_inside = std::min(least_inside, design.inside.value);
    if (refusal == Refusal::supply) least_load = std::min(least_load, design.together.value);
    if (refusal == Refusal::backup) least_load = std::min(least_load, design.all_on.value);
    if (refusal == Refusal::room && (!least_need || width_of(design.need) < width_of(*least_need)))
        least_need = design.need;
}

std::string binding_limit(const SearchFacts& search, const Refusals& refusals) {
    const auto had = [&](Refusal refusal) { return refusals.count.count(refusal) > 0; };
    const std::string load = number_text(refusals.least_load, 2) + " A";
    if (had(Refusal::heat)) return heat_text(search, refusals);
    if (had(Refusal::room)) return room_text(search, *refusals.least_need);
    if (had(Refusal::depth)) return "depth: the devices are deeper than the enclosures allowed";
    if (had(Refusal::incoming))
        return "incoming: no breaker, switch, conductor, wire or terminal of the lists for the "
               "input current, " +
               poles_text(search) + " and fault current";
    if (had(Refusal::backup))
        return "backup: no backup part of the price book is rated for " + load;
    if (had(Refusal::supply)) return "supply: no supply of the price book carries " + load;
    return {};
}

} // namespace backplate
