#include "catalog/library/change_sets.h"

#include <catch2/catch.hpp>

#include "pricing/values/faults.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;

namespace {

const ChangeNote note{"estimator", "new prices"};

void accept_all(const LibraryContent&) {}

/// The library with one price changed.
void reprice(Library& library, std::size_t index, const char* list) {
    Part part = library.read().parts.at(index);
    part.list = Money::parse(list);
    library.put_parts({part}, OtherRows::stay, note);
}

void put_rate(Library& library, const char* value) {
    library.change_rules(
        [&](const RuleTables& current) {
            RuleTables changed = current;
            changed.table("rates").rows.at(0).cells.at(0) = value;
            return changed;
        },
        note);
}

} // namespace

TEST_CASE("change sets are listed with what they did") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    reprice(library, 3, "1234.50");
    put_rate(library, "61.00");
    Part fresh = library.read().parts.at(0);
    fresh.key = "NEW-1";
    library.put_parts({fresh}, OtherRows::end, note);
    const auto heads = list_change_sets(scratch.library());
    REQUIRE(heads.size() == 4);
    const auto count = static_cast<int>(starter().parts.size());
    CHECK(heads[0].parts_added == count);
    CHECK(heads[0].parts_changed + heads[0].parts_ended == 0);
    CHECK(heads[1].number == 2);
    CHECK(heads[1].person == "estimator");
    CHECK(heads[1].reason == "new prices");
    CHECK(heads[1].made_at.size() == 20);
    CHECK(heads[1].parts_changed == 1);
    CHECK(heads[1].parts_added + heads[1].parts_ended == 0);
    CHECK(heads[2].rules_changed == 1);
    CHECK(heads[2].rules_added + heads[2].rules_ended + heads[2].parts_changed == 0);
    CHECK(heads[3].parts_added == 1);
    CHECK(heads[3].parts_ended == count);
}

TEST_CASE("an undone change of prices, and an undone undo") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    const auto before = library.read();
    reprice(library, 3, "1234.50");
    const auto changed = library.read();
    const auto undone = undo_change_set(scratch.library(), 2, accept_all, note);
    CHECK(undone.refusal.empty());
    REQUIRE(undone.parts);
    CHECK(undone.parts->change_set == 3);
    CHECK(undone.parts->changed == 1);
    CHECK(undone.parts->added + undone.parts->ended == 0);
    CHECK(library.read().parts == before.parts);
    CHECK(library.read().prices_issue == 3);
    CHECK(undo_change_set(scratch.library(), 3, accept_all, note).refusal.empty());
    CHECK(library.read().parts == changed.parts);
    CHECK(list_change_sets(scratch.library()).size() == 4);
}

TEST_CASE("parts added and ended come and go by an undo") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    const auto before = library.read().parts;
    Part fresh = before.at(0);
    fresh.key = "NEW-1";
    library.put_parts({fresh}, OtherRows::end, note);
    const auto undone = undo_change_set(scratch.library(), 2, accept_all, note);
    CHECK(undone.parts->added == static_cast<int>(before.size()));
    CHECK(undone.parts->ended == 1);
    CHECK(library.read().parts == before);
}

TEST_CASE("an undone change of rules keeps the order of rows") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    const auto before = library.read().rules;
    library.change_rules(
        [](const RuleTables& current) {
            RuleTables changed = current;
            auto& rows = changed.table("rates").rows;
            rows.erase(rows.begin());
            rows.at(0).cells.at(0) = "99.00";
            RuleRow added = rows.at(0);
            added.key = "one_more";
            rows.push_back(added);
            return changed;
        },
        note);
    const auto undone = undo_change_set(scratch.library(), 2, accept_all, note);
    CHECK(undone.refusal.empty());
    CHECK(undone.rules->added == 1);
    CHECK(undone.rules->changed == 1);
    CHECK(undone.rules->ended == 1);
    CHECK(library.read().rules.tables == before.tables);
}

TEST_CASE("an undo that cannot be is refused in words and changes nothing") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    reprice(library, 3, "1234.50");
    reprice(library, 3, "1300.00");
    put_rate(library, "61.00");
    const std::string key = library.read().parts.at(3).key;
    const auto before = read_file(scratch.library());
    const auto refusal = [&](int number) {
        return undo_change_set(scratch.library(), number, accept_all, note).refusal;
    };
    CHECK(refusal(1) == "it holds what the library was made with");
    CHECK(refusal(2) == "part " + key + " was changed again by change set 3");
    CHECK_THROWS_AS(refusal(5), BadInput);
    CHECK_THROWS_AS(refusal(0), BadInput);
    const auto judge = [](const LibraryContent&) { throw BadInput("rules would not stand"); };
    CHECK_THROWS_WITH(undo_change_set(scratch.library(), 4, judge, note), "rules would not stand");
    CHECK(read_file(scratch.library()) == before);
    CHECK(refusal(3).empty());
    CHECK(library.read().parts.at(3).list == Money::parse("1234.50"));
}

TEST_CASE("parts follow from the content as it stands, or nothing changes") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    const auto summary = library.change_parts(
        [](const LibraryContent& content) {
            Part part = content.parts.at(1);
            part.list = Money::whole(7);
            return std::vector<Part>{part, content.parts.at(2)};
        },
        note);
    CHECK(summary.changed == 1);
    CHECK(summary.unchanged == 1);
    CHECK(library.read().parts.at(1).list == Money::whole(7));
    const auto before = read_file(scratch.library());
    const auto fails = [](const LibraryContent&) -> std::vector<Part> {
        throw BadInput("no such list");
    };
    CHECK_THROWS_WITH(library.change_parts(fails, note), "no such list");
    CHECK(read_file(scratch.library()) == before);
}
