#include <algorithm>
#include <optional>

#include "pricing/job/findings.h"
#include "pricing/panel/site_limits.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

std::string plain_place(std::string place) {
    std::replace(place.begin(), place.end(), '_', ' ');
    return place;
}

/// Either numeral of one mark above those of the limit (54: solids 5, water 4); X says nothing.
bool above(std::string_view mark, int limit) {
    if (mark.size() < 4) return false;
    const auto over = [](char numeral, int most) {
        return numeral >= '0' && numeral <= '9' && numeral - '0' > most;
    };
    return over(mark[2], limit / 10) || over(mark[3], limit % 10);
}

/// IP above the limit in either numeral (of a dual mark in either part), or a type that the words
/// table lists for the finding.
bool high_protection(const std::string& mark, const FindingSink& sink) {
    if (mark.starts_with("Type ")) {
        const auto& words = sink.rules().words;
        return std::any_of(words.begin(), words.end(), [&](const WordRow& row) {
            return row.key == "@findings.INGRESS" && row.word == mark;
        });
    }
    const auto stroke = std::min(mark.find('/'), mark.size());
    const int limit = static_cast<int>(sink.limit("INGRESS"));
    return above(std::string_view(mark).substr(0, stroke), limit) ||
           (stroke < mark.size() && above(std::string_view(mark).substr(stroke + 1), limit));
}

/// "12 of 40 enclosures and 3 of 5 cooling parts": what the price book holds that does not meet the
/// mark.
std::string ruled_out(const PriceBook& book, const std::string& mark, const RuleBook& rules) {
    std::string text;
    const auto count = [&](const char* kind, const std::string& name) {
        std::int64_t all = 0, out = 0;
        for (const Part* part : book.of_kind(kind)) {
            if (part->ip_mark.empty() && part->type_mark.empty()) continue;
            ++all;
            if (!part_meets(*part, mark, rules)) ++out;
        }
        if (out == 0) return;
        text += (text.empty() ? "" : " and ") + steps_text(out, 0) + " of " + steps_text(all, 0) +
                " " + name;
    };
    count("enclosure", "enclosures");
    count("cooling", "cooling parts");
    return text.empty() ? "no part of the price book" : text;
}

/// The highest of the lowest temperatures that parts of the bill allow.
std::string coldest_allowed(const PanelChoice& choice, bool inch) {
    std::optional<double> coldest;
    if (choice.design) coldest = parts_min_c(*choice.design);
    return coldest ? stated_temperature_text(*coldest, inch) : "no stated temperature";
}

std::string material_word(const PanelChoice& choice) {
    if (!choice.design || choice.design->enclosure->material.empty()) return "not chosen";
    return choice.design->enclosure->material;
}

/// What is done against cold and dew.
std::string heating_text(const PanelChoice& choice) {
    if (!choice.design) return "not included";
    if (!choice.search->housing.walls_known) return "not judged without the box";
    if (const auto& heating = choice.design->heating)
        return "in the price as " + steps_text(heating->pieces, 0) + " × " + heating->heater->key +
               " with " + heating->control->key;
    if (choice.design->cold.rise.value > 0)
        return "not included: the price book has no heater with a hygrostat or thermostat";
    return "not needed";
}

void climate_findings(const Box& box, const PanelChoice& choice, FindingSink& sink) {
    const Site& site = box.site;
    const std::string at = box_path(box.index) + "/site";
    if (site.ambient_high_c > sink.limit("AMBIENT"))
        sink.add("AMBIENT", at + "/ambient_c",
                 {{"ambient", stated_temperature_text(site.ambient_high_c, sink.inch())},
                  {"box", box.name}});
    const std::string low = stated_temperature_text(site.ambient_low_c, sink.inch());
    if (site.ambient_low_c < sink.limit("AMBIENT_LOW"))
        sink.add("AMBIENT_LOW", at + "/ambient_c",
                 {{"ambient", low},
                  {"box", box.name},
                  {"part_min", coldest_allowed(choice, sink.inch())},
                  {"decision", heating_text(choice)}});
    if (may_condense(site, sink.rules()))
        sink.add("CONDENSATION", at + "/humidity_percent",
                 {{"humidity", number_text(site.humidity_percent)},
                  {"place", plain_place(site.place)},
                  {"ambient_low", low},
                  {"box", box.name},
                  {"decision", heating_text(choice)}});
    if (site.altitude_m > sink.limit("ALTITUDE"))
        sink.add(
            "ALTITUDE", at + "/altitude_m",
            {{"altitude", distance_text(site.altitude_m, sink.inch())},
             {"box", box.name},
             {"factor", number_text(altitude_factor(site.altitude_m, sink.rules().supply), 3)}});
}

} // namespace

void site_findings(const Box& box, const PanelChoice& choice, FindingSink& sink) {
    const Site& site = box.site;
    const std::string at = box_path(box.index);
    asked_findings(box, sink);
    climate_findings(box, choice, sink);
    if (high_protection(site.protection, sink))
        sink.add(
            "INGRESS", at + "/site/protection",
            {{"protection", site.protection},
             {"box", box.name},
             {"ruled_out", ruled_out(choice.search->chosen.book, site.protection, sink.rules())}});
    const std::string marks = marks_of_place(site, sink.rules());
    if (!site.protection.empty() && !marks.empty())
        sink.add("PROTECTION_OF_PLACE", at + "/site/protection",
                 {{"protection", site.protection},
                  {"box", box.name},
                  {"place",
                   plain_place(site.place) + (site.corrosion.empty() ? "" : ", " + site.corrosion)},
                  {"marks", marks}});
    if (!site.corrosion.empty())
        sink.add("CORROSION", at + "/site/corrosion",
                 {{"corrosion", site.corrosion},
                  {"box", box.name},
                  {"material", material_word(choice)}});
}

} // namespace backplate
