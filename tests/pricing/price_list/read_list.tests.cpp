#include "pricing/price_list/read_list.h"

#include <catch2/catch.hpp>

#include "pricing/values/faults.h"
#include "tests/pricing/price_list/sample_lists.h"

using namespace backplate;
using sample::read;

namespace {

std::string field(const ListOffer& offer, std::string_view key) {
    for (const auto& [each, text] : offer.fields)
        if (each->key == key) return text;
    return "";
}

} // namespace

TEST_CASE("columns are found by their headings below other lines") {
    const auto list = read({{"Velmora price list 2027"},
                            {},
                            {"Artikelnummer", "Text", "Listenpreis (EUR)", "Rabatt %", "Date"},
                            {"Controllers"},
                            {"VC-101", "anything", "1.298,50", "22/5", "01.12.2026"},
                            {"", "", "3,00"}});
    REQUIRE(list.offers.size() == 1);
    const ListOffer& offer = list.offers[0];
    CHECK(offer.row == 5);
    CHECK(offer.key == "VC-101");
    CHECK(offer.price == Money::parse("1298.50"));
    CHECK(offer.currency == "EUR");
    CHECK(field(offer, "discount_percent") == "22/5");
    CHECK(field(offer, "price_date") == "2026-12-01");
    CHECK(field(offer, "description").empty());
    CHECK(list.unused == std::vector<std::string>{"Text"});
    CHECK(list.map.decimal == ",");
    CHECK(list.map.columns.size() == 4);
}

TEST_CASE("a map names columns, fixed values, words and units") {
    PriceMap map;
    map.columns = {
        {"A", "part"}, {"B", "list"}, {"C", "state"}, {"D", "lead_days"}, {"E", "description"}};
    map.fixed = {{"valid_until", "2027-03-31"}, {"price_unit", "100"}};
    map.states = {{"Auslauf", "phasing_out"}};
    map.lead_unit = "weeks";
    map.decimal = ",";
    const auto list =
        read({{"A", "B", "C", "D", "E"}, {"X", "1.250", "Auslauf", "3", "New text"}}, map);
    const ListOffer& offer = list.offers.at(0);
    CHECK(offer.price == Money::whole(1250));
    CHECK(offer.price_of == 100);
    CHECK(field(offer, "state") == "phasing_out");
    CHECK(field(offer, "lead_days") == "21");
    CHECK(field(offer, "valid_until") == "2027-03-31");
    CHECK(field(offer, "description") == "New text");
}

TEST_CASE("working days become calendar days, begun ones count") {
    struct Row {
        const char *given, *days;
    };
    // Five working days in seven: common practice, no source.
    const Row row = GENERATE(Row{"5", "7"}, Row{"10", "14"}, Row{"3", "5"}, Row{"0", "0"});
    PriceMap map;
    map.columns = {{"A", "part"}, {"B", "list"}, {"D", "lead_days"}};
    map.lead_unit = "working_days";
    CHECK(field(read({{"A", "B", "D"}, {"X", "1", row.given}}, map).offers.at(0), "lead_days") ==
          row.days);
}

TEST_CASE("what a price is of") {
    const auto list = read({{"Article No", "List Price", "Per"},
                            {"A", "5.00", "100"},
                            {"B", "5.00", "pc"},
                            {"C", "5.00", "pack"},
                            {"D", "on request", "1"},
                            {"E", "", "per 10"}});
    CHECK(list.offers.at(0).price_of == 100);
    CHECK(list.offers.at(1).price_of == 1);
    CHECK(list.offers.at(2).of_pack);
    CHECK_FALSE(list.offers.at(3).price);
    CHECK(list.offers.at(4).price_of == 10);
}

TEST_CASE("a cell that cannot be read is named with row, part and expectation") {
    struct Row {
        std::vector<ListCells> rows;
        const char* said;
    };
    const Row row = GENERATE(
        Row{{}, "is empty"}, Row{{{"Article No", "List Price"}}, "holds no line below"},
        Row{{{"Colour", "Weight"}, {"a", "b"}}, "names the keys of parts"},
        Row{{{"Article No", "Weight"}, {"a", "b"}}, "no heading beside 'Article No' names a price"},
        Row{{{"Article No", "List Price", "Net Price"}, {"a", "1", "1"}},
            "has a list price and a net price"},
        Row{{{"Article No", "Artikelnummer", "List Price"}, {"a", "b", "1"}},
            "columns 'Article No' and 'Artikelnummer' both hold part"},
        Row{{{"Article No", "List Price"}, {"VC", "1.250"}}, "row 2: '1.250' may have decimals"},
        Row{{{"Article No", "List Price"}, {"VC", "12 or 13"}},
            "row 2: part VC: column 'List Price' is '12 or 13'; expected an amount"},
        Row{{{"Article No", "List Price"}, {"VC", "soon"}}, "rows on_request"},
        Row{{{"Article No", "List Price"}, {"VC", "-3.50"}}, "from 0 to 100000000"},
        Row{{{"Article No", "List Price"}, {"VC", "1.23456"}}, "at most four decimals"},
        Row{{{"Article No", "List Price", "Per"}, {"VC", "1", "dozen"}}, "column 'Per' is 'dozen'"},
        Row{{{"Article No", "List Price", "Per"}, {"VC", "1", "0"}}, "column 'Per' is '0'"},
        Row{{{"Article No", "List Price", "Date"}, {"VC", "1", "2027-02-29"}},
            "expected a date such as"},
        Row{{{"Article No", "List Price", "Rabatt"}, {"VC", "1", "30+10"}},
            "discounts from 0 to 100"},
        Row{{{"Article No", "List Price", "Rabatt"}, {"VC", "1", "130"}}, "is '130'"},
        Row{{{"Article No", "List Price", "VPE"}, {"VC", "1", "half"}}, "column 'VPE' is 'half'"});
    CHECK_THROWS_WITH(read(row.rows), Catch::Contains(row.said));
}

TEST_CASE("a map whose column is not there says what is near") {
    PriceMap map;
    map.columns = {{"Article No", "part"}, {"List Prise", "list"}};
    CHECK_THROWS_WITH(read({{"Article No", "List Price"}, {"a", "1"}}, map),
                      Catch::Contains("has no column 'List Prise'") &&
                          Catch::Contains("nearest: List Price"));
}
