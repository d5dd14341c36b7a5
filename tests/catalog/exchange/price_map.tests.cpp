#include "catalog/exchange/price_map.h"

#include <catch2/catch.hpp>

#include "pricing/values/faults.h"

using namespace backplate;

TEST_CASE("a map of a price list reads back equal") {
    PriceMap map;
    map.maker = "Velmora";
    map.decimal = ",";
    map.dates = "month_first";
    map.currency = "EUR";
    map.lead_unit = "weeks";
    map.columns = {{"Artikel \"A\"", "part"}, {"Preis", "net"}};
    map.fixed = {{"valid_until", "2027-03-31"}, {"price_unit", "100"}};
    map.keys = {{"90-7", "VC-101"}};
    map.states = {{"Auslauf", "phasing_out"}};
    CHECK(read_price_map("m.json", price_map_text(map)) == map);
    CHECK(
        read_price_map("m.json", "{ \"format\": \"backplate-price-map/1\" } // all by headings") ==
        PriceMap{});
}

TEST_CASE("a wrong map names its key and what was expected") {
    CHECK_THROWS_WITH(read_price_map("m.json", R"({ "format": "backplate-price-map/1",
                                                    "columns": { "A": "prize" } })"),
                      Catch::Contains("m.json: key columns/A: 'prize', expected one of part"));
    CHECK_THROWS_AS(read_price_map("m.json", "{}"), BadInput);
}
