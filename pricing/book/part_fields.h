#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "pricing/book/part.h"

namespace backplate {

/// One field of a part: the only list that CSV, editor, check and JSON read.
struct PartField {
    std::string_view key;
    std::string_view unit;
    std::string_view kinds; ///< blanks between; empty: every kind. For which kinds it is needed
    bool required = false;  ///< for these kinds
    double minimum = 0;
    double maximum = 0; ///< 0: no numeric range
    std::string_view explanation;
    /// Reads the cell into the part; false where the text is not of the expected form or range.
    bool (*read)(Part&, std::string_view cell) = nullptr;
    std::string (*write)(const Part&) = nullptr;
    std::string_view form; ///< what a cell is, where it is none of `words`
    std::span<const std::string_view> words;
    bool offered_only = false; ///< an allowance may leave it out, see needed_by
};

std::span<const PartField> part_fields();
const PartField* find_part_field(std::string_view key);

/// The words of `kind`: controller head feed module accessory interface supply incoming
/// main_switch protection network terminal rail duct wire enclosure cooling heater door equipment.
std::span<const std::string_view> part_kinds();

/// What the field expects, for messages: "a number from 0 to 5000 mm".
std::string expectation(const PartField& field);

/// Whether a part of this kind cannot be used without the field.
bool needed_by(const PartField& field, std::string_view kind);

/// The same of one part. An allowance, a figure by hand until a data sheet is there, needs kind,
/// description, width, own current (or own power), channels and what it is rated for, and a list
/// price; it may leave out the fields that only an offered article states (offered_only): height,
/// depth, highest air temperature.
bool needed_by(const PartField& field, const Part& part);

/// Fills in what follows from the kind: platform `compact` of controllers, heads, feeds and
/// modules; mounting `wall` of enclosures; the stage that a cooling part makes (cooling_unit with
/// a cooling power, filter_fan with a flow, else circulation_fan). An allowance of a module takes
/// one place; the own current of an allowance follows from its own power: W / 24 V, up to 0.0001 A.
void fill_part_defaults(Part& part);

/// The value that a basis quotes as PART/field; empty where the part has none.
std::string field_text(const Part& part, std::string_view key);

} // namespace backplate
