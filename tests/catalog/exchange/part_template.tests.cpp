#include "catalog/exchange/part_template.h"

#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

#include "catalog/cells/table.h"
#include "catalog/exchange/price_csv.h"
#include "pricing/book/part_fields.h"
#include "pricing/book/price_book.h"

using namespace backplate;

namespace {

std::vector<Part> read_template(const std::string& platform) {
    const auto path = std::filesystem::temp_directory_path() /
                      ("backplate-template-" + std::to_string(::getpid()) + ".csv");
    write_file(path.string(), part_template(platform));
    const auto parts = read_parts_file(path.string());
    std::filesystem::remove(path);
    return parts;
}

} // namespace

TEST_CASE("the template is read as it is: a controller, a coupler, ten modules, accessories") {
    const auto parts = read_template("Kilnrow 2");
    const auto of = [&](const char* kind) {
        return std::count_if(parts.begin(), parts.end(),
                             [&](const Part& part) { return part.kind == kind; });
    };
    CHECK(of("controller") == 1);
    CHECK(of("head") == 1);
    CHECK(of("module") == 10);
    CHECK(of("accessory") == 2);
    for (const Part& part : parts) {
        CAPTURE(part.key);
        CHECK(part.platform == (part.kind == "accessory" ? "" : "Kilnrow 2"));
        CHECK_FALSE(part.list);
        CHECK(part.groups.empty() == (part.kind != "module"));
    }
}

TEST_CASE("the template has a column for whatever its kinds need, each with unit and range") {
    const auto sheet = read_csv("template", part_template("own"));
    const auto heading = std::find_if(sheet.rows.begin(), sheet.rows.end(), [](const auto& row) {
        return !row.empty() && row[0] == "part";
    });
    REQUIRE(heading != sheet.rows.end());
    for (const auto& field : part_fields())
        for (const char* kind : {"controller", "head", "module", "accessory"}) {
            CAPTURE(field.key, kind);
            if (!needed_by(field, kind)) continue;
            CHECK(std::find(heading->begin(), heading->end(), field.key) != heading->end());
        }
    const auto width = std::find(heading->begin(), heading->end(), "width_mm") - heading->begin();
    const auto above = [&](int lines) {
        return (heading - lines)->at(static_cast<std::size_t>(width));
    };
    CHECK(above(4) == "width");
    CHECK(above(3) == "mm");
    CHECK(above(2) == "a number from 0 to 5000 mm");
    CHECK(above(1) == "controller head module");
}

TEST_CASE("what is still empty in the template is named") {
    std::string said;
    for (const auto& fault : check_book(PriceBook(read_template("own"), 1)))
        said += fault_line(fault) + "\n";
    for (const char* words :
         {"OWN-CTL has no width", "OWN-DI16 has no own current", "OWN-HEAD has no places",
          "platform own has modules, but no controller and no head gives places"})
        CHECK_THAT(said, Catch::Contains(words));
}
