#include <catch2/catch.hpp>

#include "pricing/takeoff/row_facts.h"
#include "pricing/takeoff/tags.h"
#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;

namespace {

Lexicon lexicon() { return Lexicon(tests::starter_rules().spellings); }

/// Damage that spreadsheets do to tags; common practice, no source.
struct TagCase {
    const char *tag, *warning;
};
const std::vector<TagCase> tag_cases = {{"2-Jan", "tag_is_date"},
                                        {"03.Feb", "tag_is_date"},
                                        {"2031-05-06", "tag_is_date"},
                                        {"Mar-12", "tag_is_date"},
                                        {"1.00E+05", "tag_is_number"},
                                        {"45323", "tag_is_number"},
                                        {"ZSC/O-3", "tag_two_signals"},
                                        {"1-1A", ""},
                                        {"0012", ""},
                                        {"LSH-101", ""},
                                        {"P-101A/B", ""},
                                        {"M-71.RUN", ""}};

struct RangeCase {
    const char* tag;
    int tags; ///< 0: a single tag
};
const std::vector<RangeCase> range_cases = {
    {"LSH-101…104", 4}, {"LSH-101..LSH-110", 10}, {"LSH-1 to 3", 3}, {"P-1A/B/C", 3},
    {"P-101-104", 0},   {"LSH-104…101", 0},       {"X-1…Y-4", 0},    {"ZSC/O-3", 0}};

struct QuantityCase {
    const char* cell;
    int pieces;
    const char* refusal;
};
const std::vector<QuantityCase> quantity_cases = {{"", 1, ""},
                                                  {"-", 1, ""},
                                                  {"12", 12, ""},
                                                  {"2,0", 2, ""},
                                                  {"4 off", 4, ""},
                                                  {"3 Stk", 3, ""},
                                                  {"0", 0, ""},
                                                  {"1,5", 0, "qty_not_integer"},
                                                  {"two", 0, "qty_not_integer"},
                                                  {"100001", 0, "qty_not_integer"},
                                                  {"-2", 0, "qty_negative"},
                                                  {"#REF!", 0, "error_cell_qty"}};

} // namespace

TEST_CASE("damaged and doubled tags are noticed") {
    for (const TagCase& one : tag_cases) {
        INFO(one.tag);
        CHECK(tag_warning(one.tag, lexicon()).value_or("") == one.warning);
    }
}

TEST_CASE("a range of tags is counted") {
    for (const RangeCase& one : range_cases) {
        INFO(one.tag);
        CHECK(tags_in_range(one.tag).value_or(0) == one.tags);
    }
}

TEST_CASE("quantities are whole numbers") {
    for (const QuantityCase& one : quantity_cases) {
        INFO(one.cell);
        const Quantity quantity = read_quantity(one.cell, lexicon());
        CHECK(quantity.refusal == one.refusal);
        if (quantity.refusal.empty()) CHECK(quantity.pieces == one.pieces);
    }
}
