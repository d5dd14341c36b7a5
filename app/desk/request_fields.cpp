#include "app/desk/request_fields.h"

#include <array>

namespace backplate {
namespace {

using Kind = FieldSpec::Kind;
using Cell = EntryColumn::Kind;

constexpr FieldSpec field(const char* name, const char* label, const char* pointer, Kind kind,
                          const char* unit = "") {
    return {.name = name, .label = label, .unit = unit, .pointer = pointer, .kind = kind};
}

constexpr FieldSpec word(const char* name, const char* label, const char* pointer,
                         const char* words) {
    return {.name = name, .label = label, .pointer = pointer, .kind = Kind::word, .words = words};
}

constexpr FieldSpec box(FieldSpec spec) {
    spec.of_box = true;
    return spec;
}

constexpr FieldSpec box_number(const char* name, const char* label, const char* pointer,
                               const char* unit = "") {
    return box(field(name, label, pointer, Kind::number, unit));
}

constexpr FieldSpec box_flag(const char* name, const char* label, const char* pointer) {
    return box(field(name, label, pointer, Kind::flag));
}

/// The same cell as the field before; what the label does not say is spoken.
constexpr FieldSpec joined(FieldSpec spec, const char* spoken) {
    spec.joined = true;
    spec.spoken = spoken;
    return spec;
}

constexpr FieldSpec end_of_range(FieldSpec spec, int element) {
    spec.element = element;
    return spec;
}

constexpr auto point_columns =
    std::array{EntryColumn{"signal", "Signal", 86, Cell::signal, "boxes[].points[].signal"},
               EntryColumn{"count", "Count", 50, Cell::number},
               EntryColumn{"", "Spare %", 58, Cell::spare},
               EntryColumn{"wiring", "Wiring", 70, Cell::word, "boxes[].points[].wiring"},
               EntryColumn{"via", "Interface", 70, Cell::word, "boxes[].points[].via"},
               EntryColumn{"amps", "A each", 52, Cell::number},
               EntryColumn{"volts", "Volts", 46, Cell::number},
               EntryColumn{"on_together_percent", "On %", 48, Cell::number},
               EntryColumn{"fed_from_box", "Fed here", 62, Cell::flag},
               EntryColumn{"note", "Note", 110, Cell::text}};

constexpr auto assembly_columns =
    std::array{EntryColumn{"name", "Assembly", 240, Cell::word, "boxes[].assemblies[].name"},
               EntryColumn{"quantity", "Quantity", 70, Cell::number}};

constexpr auto equipment_columns =
    std::array{EntryColumn{"text", "By text", 130, Cell::text},
               EntryColumn{"part", "or part", 76, Cell::text},
               EntryColumn{"quantity", "Pieces", 50, Cell::number},
               EntryColumn{"where", "Where", 62, Cell::word, "boxes[].equipment[].where"},
               EntryColumn{"watts", "W", 44, Cell::number},
               EntryColumn{"amps_24v", "A 24 V", 54, Cell::number},
               EntryColumn{"volts", "or volts", 56, Cell::number},
               EntryColumn{"current", "AC, DC", 54, Cell::word, "boxes[].equipment[].current"},
               EntryColumn{"amps", "A there", 54, Cell::number},
               EntryColumn{"width_mm", "Width", 50, Cell::number},
               EntryColumn{"height_mm", "Height", 52, Cell::number},
               EntryColumn{"depth_mm", "Depth", 50, Cell::number},
               EntryColumn{"price", "Price", 66, Cell::money},
               EntryColumn{"hours", "Hours", 50, Cell::number}};

constexpr auto keep_columns = std::array{EntryColumn{"part", "Keep the part", 200, Cell::text},
                                         EntryColumn{"quantity", "Pieces", 70, Cell::number}};

constexpr auto replace_columns = std::array{EntryColumn{"part", "In place of", 160, Cell::text},
                                            EntryColumn{"by", "take", 120, Cell::text}};

constexpr auto climate_fields = std::array{
    box(end_of_range(field("ambient_low", "Ambient", "/site/ambient_c", Kind::number), 0)),
    joined(box(end_of_range(field("ambient_high", "to", "/site/ambient_c", Kind::number, "°C"), 1)),
           "Ambient, highest"),
    box_number("altitude", "Altitude", "/site/altitude_m", "m"),
    box(word("place", "Place", "/site/place", "boxes[].site.place")),
    box_number("humidity", "Humidity", "/site/humidity_percent", "%"),
    box(word("dust", "Dust", "/site/dust", "boxes[].site.dust")),
    box(word("corrosion", "Corrosion", "/site/corrosion", "boxes[].site.corrosion"))};

constexpr auto standing_fields =
    std::array{box(word("protection", "Protection", "/site/protection", "boxes[].site.protection")),
               box(word("mounting", "Mounting", "/site/mounting", "boxes[].site.mounting")),
               box_number("max_width", "At most", "/site/max_mm/width"),
               joined(box_number("max_height", "×", "/site/max_mm/height"), "Height at most"),
               joined(box_number("max_depth", "×", "/site/max_mm/depth", "mm"), "Depth at most"),
               box(field("approvals", "Approvals", "/site/approvals", Kind::words))};

constexpr auto mains_fields =
    std::array{box_number("supply_volts", "Mains", "/site/supply/volts", "V"),
               box_number("supply_phases", "Phases", "/site/supply/phases"),
               box_number("supply_hz", "Frequency", "/site/supply/hz", "Hz"),
               box_flag("supply_neutral", "Neutral", "/site/supply/neutral"),
               box_number("supply_feeds", "Feeds", "/site/supply/feeds"),
               box_number("fault_current", "Fault current", "/site/fault_current_ka", "kA")};

constexpr auto site_pages =
    std::array{FieldGroup{"Climate", climate_fields}, FieldGroup{"Housing", standing_fields},
               FieldGroup{"Supply from outside", mains_fields}};

constexpr auto choice_fields = std::array{
    box_number("room_percent", "Free rail", "/choices/room_percent", "%"),
    box_number("future_load", "Load to come", "/choices/future_load_percent", "%"),
    box_number("inside_max", "Inside at most", "/choices/inside_max_c", "°C"),
    box_number("backup_minutes", "Backup", "/choices/backup_minutes", "min"),
    box(word("cooling", "Cooling", "/choices/cooling", "boxes[].choices.cooling")),
    box(word("material", "Material", "/choices/material", "boxes[].choices.material")),
    box(word("enclosure_choice", "Enclosure", "/choices/enclosure", "boxes[].choices.enclosure")),
    box_flag("in_stock", "In stock only", "/choices/in_stock_only"),
    box_flag("redundant_supply", "Two supplies", "/choices/redundant_supply"),
    box_flag("separate_output_supply", "Outputs apart", "/choices/separate_output_supply"),
    box_flag("redundant_controller", "Two controllers", "/choices/redundant_controller"),
    box(field("platforms", "Platforms", "/choices/platforms", Kind::words)),
    box(field("makers", "Makers first", "/choices/prefer_makers", Kind::words)),
    box(field("exclude", "Without parts", "/choices/exclude", Kind::words))};

constexpr auto work_fields =
    std::array{box_number("screens", "Screens", "/work/screens"),
               box_number("soft_points", "Soft points", "/work/soft_points"),
               box_number("network_devices", "Network devices", "/work/network_devices"),
               box_number("loops", "Control loops", "/work/loops"),
               box(field("repeat_of", "Repeats box", "/work/repeat_of", Kind::text))};

constexpr auto box_fields =
    std::array{box(field("box_name", "Name", "/name", Kind::text)),
               box(word("link_medium", "Line to it", "/link/medium", "boxes[].link.medium")),
               joined(box_number("link_length", "", "/link/length_m", "m"), "Length of the line")};

constexpr auto box_pages =
    std::array{FieldGroup{"This box", box_fields}, FieldGroup{"Choices", choice_fields},
               FieldGroup{"Software", work_fields}};

constexpr auto job_fields =
    std::array{field("enquiry", "Enquiry", "/job/enquiry", Kind::text),
               field("prepared_by", "Prepared by", "/job/prepared_by", Kind::text),
               field("date", "Date", "/job/date", Kind::text),
               field("valid_days", "Valid", "/job/valid_days", Kind::number, "days"),
               field("deliver_weeks", "Wanted in", "/job/deliver_weeks", Kind::number, "weeks"),
               field("currency", "Currency", "/job/currency", Kind::text),
               word("practice", "Practice", "/job/practice", "job.practice"),
               word("units", "Units", "/job/units", "job.units"),
               field("estimate_class", "Estimate class", "/job/estimate_class", Kind::number)};

constexpr auto spare_fields = std::array{
    field("spare_percent", "Spare", "/spare/percent", Kind::number, "%"),
    word("spare_basis", "Counted", "/spare/basis", "spare.basis"),
    word("spare_kind", "Kept as", "/spare/kind", "spare.kind"),
    word("spare_scope", "Rounded by", "/spare/scope", "spare.scope"),
    field("minimum_channels", "At least", "/spare/minimum_channels", Kind::number, "channels"),
    field("minimum_modules", "At least", "/spare/minimum_modules", Kind::number, "modules")};

constexpr auto job_pages =
    std::array{FieldGroup{"Enquiry", job_fields}, FieldGroup{"Spare", spare_fields}};

constexpr auto scope_fields = std::array{
    word("drawings", "Drawings", "/scope/drawings", "scope.drawings"),
    word("software", "Software", "/scope/software", "scope.software"),
    word("works_test", "Works test", "/scope/works_test", "scope.works_test"),
    word("commissioning", "Commissioning", "/scope/commissioning", "scope.commissioning"),
    word("packing", "Packing", "/scope/packing", "scope.packing"),
    word("transport", "Transport", "/scope/transport", "scope.transport"),
    word("documents", "Documents", "/scope/documents", "scope.documents"),
    field("languages", "Languages", "/scope/languages", Kind::number),
    field("witness_days", "Witness", "/scope/witness_days", Kind::number, "days"),
    field("site_days", "At the site", "/scope/site_days", Kind::number, "days")};

constexpr auto price_fields = std::array{
    field("margin", "Margin", "/commercial/margin_percent", Kind::number, "%"),
    field("markup", "or markup", "/commercial/markup_percent", Kind::number, "%"),
    field("contingency", "Contingency", "/commercial/contingency_percent", Kind::number, "%"),
    field("concession", "Concession", "/commercial/concession_percent", Kind::number, "%"),
    field("target_price", "Target price", "/commercial/target_price", Kind::money),
    field("tax", "Tax", "/commercial/tax_percent", Kind::number, "%"),
    word("delivery_term", "Delivery term", "/commercial/delivery_term", "commercial.delivery_term"),
    field("circumstances", "Circumstances", "/circumstances", Kind::words)};

constexpr auto terms_pages =
    std::array{FieldGroup{"Scope of supply", scope_fields}, FieldGroup{"Price", price_fields}};

} // namespace

const EntryList points_list{"points", "Points by signal", "/points", point_columns};
const EntryList assemblies_list{"assemblies", "Assemblies", "/assemblies", assembly_columns};
const EntryList equipment_list{"equipment", "Equipment", "/equipment", equipment_columns};
const EntryList keep_list{"keep", "Parts to keep", "/choices/keep", keep_columns};
const EntryList replace_list{"replace", "Parts to replace", "/choices/replace", replace_columns};

std::span<const FieldGroup> site_groups() { return site_pages; }
std::span<const FieldGroup> box_groups() { return box_pages; }
std::span<const FieldGroup> job_groups() { return job_pages; }
std::span<const FieldGroup> terms_groups() { return terms_pages; }

const FieldSpec title_field = field("title", "Job", "/job/title", Kind::text);
const FieldSpec client_field = field("client", "Client", "/job/client", Kind::text);
const FieldSpec due_field = field("due", "Due", "/job/due", Kind::text);
const FieldSpec box_quantity_field = box_number("box_quantity", "Alike", "/quantity");
const FieldSpec box_controller_field =
    box(word("controlled_by", "Controlled by", "/controlled_by", "boxes[].controlled_by"));

} // namespace backplate
