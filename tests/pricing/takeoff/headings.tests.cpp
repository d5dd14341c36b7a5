#include <catch2/catch.hpp>

#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;

namespace {

std::optional<Heading> heading_of(const std::vector<Cells>& rows) {
    ListSheet sheet;
    for (const Cells& cells : rows) {
        ListRow& row = sheet.rows.emplace_back();
        row.number = static_cast<int>(sheet.rows.size());
        row.cells = cells;
    }
    const Lexicon lexicon(tests::starter_rules().spellings);
    const auto tables =
        find_headings(sheet, HeadingWords(tests::starter_rules().headings, lexicon), {});
    return tables.empty() ? std::nullopt : std::optional(tables.front());
}

const Cells sample{"a", "b", "c", "d", "e", "f"};

} // namespace

TEST_CASE("the heading is found below a title block") {
    const auto heading = heading_of({{"Panel list, type A"},
                                     {"Tag", "Description", "I/O Type", "Signal"},
                                     {"LS-1", "Level", "DI", "24 VDC"}});
    REQUIRE(heading);
    CHECK(heading->row == 1);
    CHECK(heading->end_column == 4);
    CHECK(heading->text(sample, Role::type) == "c");
    CHECK(heading->text(sample, Role::electrics) == "d");
}

TEST_CASE("whole headings win over part ones, and several columns over none") {
    const auto heading =
        heading_of({{"Signal name", "Type", "Signal Type", "Wiring Notes", "Remarks", "Loop"}});
    REQUIRE(heading);
    CHECK(heading->text(sample, Role::tag) == "a");
    CHECK(heading->text(sample, Role::type) == "b");
    CHECK(heading->text(sample, Role::electrics) == "c");
    CHECK(heading->text(sample, Role::remarks) == "d e");
}

TEST_CASE("one column of kind holds type and electrics") {
    const auto heading = heading_of({{"TAG", "TEXT", "SIGNAL", "CABINET (see note)", "QTY"}});
    REQUIRE(heading);
    CHECK(heading->text(sample, Role::type) == "c");
    CHECK_FALSE(heading->has(Role::electrics));
    CHECK(heading->text(sample, Role::panel) == "d");
    CHECK(heading->text(sample, Role::quantity) == "e");
}

TEST_CASE("a heading of two rows is joined") {
    const auto heading = heading_of({{"Item", "Tag No.", "Service", "Signal", "", "Remarks"},
                                     {"", "", "", "Type", "Level", ""},
                                     {"1", "LS-1", "Level", "DI", "24VDC", ""}});
    REQUIRE(heading);
    CHECK(heading->row == 0);
    CHECK(heading->last_row == 1);
    CHECK(heading->text(sample, Role::type) == "d");
    CHECK(heading->text(sample, Role::electrics) == "e");
}

TEST_CASE("a list without a column of kind has no heading") {
    CHECK_FALSE(heading_of({{"Tag", "Description", "Panel"}, {"LS-1", "Level", "CP1"}}));
    CHECK_FALSE(heading_of({}));
    std::vector<Cells> low(30);
    low.push_back({"Tag", "Type"});
    CHECK_FALSE(heading_of(low));
}
