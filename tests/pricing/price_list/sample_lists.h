#pragma once

#include <string>
#include <vector>

#include "pricing/price_list/compare_list.h"

namespace backplate::sample {

inline ListRules list_rules() {
    ListRules rules;
    rules.currency = "EUR";
    rules.currencies = {"EUR", "USD", "GBP"};
    rules.dearer = Percent::whole(25);
    rules.cheaper = Percent::whole(25);
    rules.pack = Percent::whole(15);
    rules.spellings = {
        {"part", "Article No"},        {"part", "Artikelnummer"},    {"list", "List Price"},
        {"list", "Listenpreis"},       {"net", "Net Price"},         {"alias", "EAN"},
        {"price_date", "Date"},        {"price_unit", "Per"},        {"currency", "Currency"},
        {"one_piece", "pc"},           {"per_pack", "pack"},         {"pack", "VPE"},
        {"state", "Status"},           {"successor", "Replaced by"}, {"on_request", "on request"},
        {"discount_percent", "Rabatt"}};
    return rules;
}

inline PriceList read(const std::vector<ListCells>& rows, const PriceMap& map = {}) {
    std::vector<int> places;
    for (std::size_t i = 0; i < rows.size(); ++i) places.push_back(static_cast<int>(i) + 1);
    return read_price_list("list.csv", rows, places, map, list_rules());
}

inline Part part(const std::string& key, const char* list, const char* maker = "Velmora") {
    Part made;
    made.key = key;
    made.kind = "accessory";
    made.description = "Part " + key;
    made.maker = maker;
    made.list = Money::parse(list);
    return made;
}

} // namespace backplate::sample
