// The rows of the offer's sentences: what is refused, and that no subject is said twice.
#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>
#include <map>
#include <set>

#include "catalog/exchange/rules_csv.h"
#include "pricing/book/rule_book.h"

using namespace backplate;

namespace {

const std::string starter = std::string(BACKPLATE_SOURCE_TREE) + "/catalog/starter/rules";

RuleBook book_of(const RuleTables& tables) {
    const RuleBookResult result = make_rule_book(tables);
    REQUIRE(result.book);
    return *result.book;
}

std::string faults_of(RuleTables tables, const std::string& row, std::string_view column,
                      const std::string& cell) {
    const auto columns = find_table_spec("texts")->columns;
    for (RuleRow& each : tables.table("texts").rows)
        for (std::size_t i = 0; i < columns.size(); ++i)
            if (each.key == row && columns[i].key == column) each.cells[i] = cell;
    std::string text;
    for (const RuleFault& fault : make_rule_book(tables).faults)
        text += fault.table + "/" + fault.row + " " + fault.column + ": " + fault.text + "\n";
    return text;
}

/// Words that the fact can be by the rows; for a number the ones around each limit.
std::set<std::string> states_of(const std::string& key, const std::set<std::string>& named,
                                const RuleBook& book) {
    std::set<std::string> states;
    const auto add_words = [&](const std::string& of) {
        for (const WordRow& row : book.words)
            if (row.key == of) states.insert(row.word);
    };
    for (const OfferFact& fact : offer_facts()) {
        if (fact.key != key) continue;
        std::string words(fact.words);
        while (!words.empty()) {
            const auto end = std::min(words.find(' '), words.size());
            const std::string word = words.substr(0, end);
            if (word.starts_with('@'))
                add_words(word.substr(1));
            else
                states.insert(word);
            words.erase(0, std::min(end + 1, words.size()));
        }
    }
    if (key.starts_with("circumstance.")) states = {"yes", "no"};
    if (key.starts_with("scope.")) add_words(key);
    if (!states.empty()) return states;
    for (const std::string& limit : named) {
        states.insert(limit);
        states.insert(std::to_string(std::stoi(limit) + 1));
    }
    return states;
}

using State = std::map<std::string, std::string>;

/// Every state of the facts that the rows look at.
std::vector<State> states_of(const std::vector<const OfferTextRow*>& rows, const RuleBook& book) {
    std::map<std::string, std::set<std::string>> named;
    for (const OfferTextRow* row : rows)
        for (const ConditionTerm& term : row->terms) named[term.key].insert(term.value);
    std::vector<State> states{{}};
    for (const auto& [key, values] : named) {
        std::vector<State> longer;
        for (const State& state : states)
            for (const std::string& value : states_of(key, values, book)) {
                longer.push_back(state);
                longer.back()[key] = value;
            }
        states = std::move(longer);
    }
    return states;
}

std::size_t prints(const std::vector<const OfferTextRow*>& rows, const State& state) {
    return static_cast<std::size_t>(
        std::count_if(rows.begin(), rows.end(), [&](const OfferTextRow* row) {
            return all_hold(row->terms, [&](const std::string& key) { return state.at(key); });
        }));
}

// What an offer must say one way or the other: trade-practice 1.2 (inclusions, exclusions,
// assumptions, validity, delivery, payment, warranty).
const std::set<std::string> always_said{
    "panels",        "basis",          "drawings",    "software",       "works test",
    "commissioning", "documents",      "languages",   "packing",        "transport",
    "safety",        "spare channels", "listing",     "cable glands",   "field scope",
    "tax",           "duty",           "area",        "quantities",     "estimate",
    "authority",     "danger",         "validity",    "delivery",       "payment",
    "warranty",      "late delivery",  "spare parts", "existing plant", "standards"};

/// A box of equipment only: there is no spare to speak of.
bool without_points(const State& state) {
    return state.contains("has.points") && state.at("has.points") == "no" &&
           state.at("has.spare") == "no";
}

struct WrongRow {
    const char *row, *column, *cell, *message;
};

const WrongRow wrong_rows[] = {
    {"drawings_included", "section", "inclusion",
     "texts/drawings_included section: 'inclusion', expected one of scope option"},
    {"drawings_included", "condition", "drawings", "condition: 'drawings', expected always"},
    {"drawings_included", "condition", "scope.drawing=included",
     "'scope.drawing' is no fact, expected one as scope.software"},
    {"drawings_included", "condition", "has.drawings=yes", "'has.drawings' is no fact"},
    {"drawings_included", "condition", "circumstance.rain=yes", "'circumstance.rain' is no fact"},
    {"drawings_included", "condition", "scope.drawings=in",
     "'in', expected for scope.drawings one of included excluded option not_stated"},
    {"drawings_included", "condition", "has.spare=1", "'1', expected for has.spare one of yes no"},
    {"drawings_included", "condition", "practice=IEC",
     "'IEC', expected for practice one of iec north_america"},
    {"drawings_included", "condition", "practice>1", "'practice' is no number, expected = or !="},
    {"several_feeds", "condition", "feeds=two", "'two', expected a number for feeds"},
    {"drawings_included", "text", "Drawings in {days} days.",
     "'{days}' is no value, expected a row of the table offer_figures"},
    {"drawings_included", "instead_of", "HEET", "'HEET', expected rows of the table findings"},
};

} // namespace

TEST_CASE("a wrong row of the offer's sentences is named with what was expected") {
    const RuleTables tables = read_rules_dir(starter);
    for (const WrongRow& each : wrong_rows) {
        CAPTURE(each.row, each.column, each.cell);
        CHECK_THAT(faults_of(tables, each.row, each.column, each.cell),
                   Catch::Contains(each.message));
    }
    CHECK(faults_of(tables, "drawings_included", "condition", "practice=iec and feeds>1").empty());
}

TEST_CASE(
    "in every state a subject is said at most once, and what an offer must say exactly once") {
    const RuleBook book = book_of(read_rules_dir(starter));
    std::map<std::string, std::vector<const OfferTextRow*>> subjects;
    for (const OfferTextRow& row : book.offer_texts) subjects[row.subject].push_back(&row);
    int judged = 0;
    for (const auto& [subject, rows] : subjects)
        for (const State& state : states_of(rows, book)) {
            CAPTURE(subject, state);
            const std::size_t count = prints(rows, state);
            CHECK(count <= 1);
            if (always_said.contains(subject)) CHECK(count == (without_points(state) ? 0 : 1));
            ++judged;
        }
    for (const std::string& subject : always_said) {
        CAPTURE(subject);
        CHECK(subjects.contains(subject));
    }
    std::cout << "offer texts: " << judged << " states judged\n";
    CHECK(judged >= 150);
}

TEST_CASE("every condition of the offer's sentences holds in one state and fails in another") {
    const RuleBook book = book_of(read_rules_dir(starter));
    int judged = 0;
    for (const OfferTextRow& row : book.offer_texts) {
        if (row.terms.empty()) continue;
        CAPTURE(row.id);
        std::size_t held = 0, states = 0;
        for (const State& state : states_of({&row}, book)) {
            held += prints({&row}, state);
            ++states;
        }
        CHECK(held > 0);
        CHECK(held < states);
        ++judged;
    }
    CHECK(judged >= 60);
}

// The shares of a payment are of one price.
TEST_CASE("the payments of the starter rows add to the whole price") {
    const RuleBook book = book_of(read_rules_dir(starter));
    double sum = 0;
    for (const char* share : {"payment_order", "payment_test", "payment_papers"})
        sum += book.offer_figures.at(share).number();
    CHECK(sum == 100);
    // trade-practice 1.2: 12 months from start-up or 18 from shipment (from memory); net 30 (C23).
    CHECK(book.offer_figures.at("warranty_start_months").text() == "12");
    CHECK(book.offer_figures.at("warranty_dispatch_months").text() == "18");
    CHECK(book.offer_figures.at("payment_days").text() == "30");
}
