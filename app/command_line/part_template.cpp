#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/commands.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/part_template.h"
#include "pricing/book/part_fields.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

/// The columns that a parts file may hold.
Json columns_json() {
    Json list = Json::array();
    for (const PartField& field : part_fields()) {
        Json needed = Json::array();
        for (const auto kind : part_kinds())
            if (needed_by(field, kind)) needed.push_back(kind);
        list.push_back({{"column", field.key},
                        {"unit", field.unit.empty() ? Json(nullptr) : Json(field.unit)},
                        {"expected", expectation(field)},
                        {"explanation", field.explanation},
                        {"needed_for", needed},
                        {"needed_for_allowance", !field.offered_only}});
    }
    return {{"columns", list}};
}

} // namespace

int run_parts_template(const TemplateArguments& arguments, const CommonArguments& common) {
    Part part;
    if (!find_part_field("platform")->read(part, arguments.platform))
        throw BadInput(
            fmt::format("--platform '{}'; expected a name on one line", arguments.platform));
    const std::string text = part_template(arguments.platform);
    if (!arguments.file.empty()) write_file(arguments.file, text);
    if (common.json)
        fmt::print("{}\n", columns_json().dump(2));
    else if (arguments.file.empty())
        fmt::print("{}", text);
    else
        fmt::print("{}: a controller, a coupler, ten modules and accessories to fill in\n",
                   arguments.file);
    return done;
}

} // namespace backplate
