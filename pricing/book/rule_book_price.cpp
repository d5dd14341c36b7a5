#include <algorithm>
#include <array>

#include "pricing/book/rule_reader.h"
#include "pricing/cost/conditions.h"
#include "pricing/values/date.h"

namespace backplate {
namespace {

constexpr std::string_view policy_table = "price_policy", learning_table = "learning";

struct PolicyRow {
    Rule PricePolicy::*member;
    std::string_view row;
};
constexpr auto policy_rows =
    std::array{PolicyRow{&PricePolicy::freight_percent, "freight_percent"},
               PolicyRow{&PricePolicy::overhead, "overhead"},
               PolicyRow{&PricePolicy::round_up_to, "round_up_to"},
               PolicyRow{&PricePolicy::sundries_percent, "sundries_percent"},
               PolicyRow{&PricePolicy::material_low_percent, "material_low_percent"},
               PolicyRow{&PricePolicy::material_high_percent, "material_high_percent"}};

struct FurtherPolicyRow {
    OptionalRule PricePolicy::*member;
    std::string_view row;
};
constexpr auto further_policy_rows = std::array{
    FurtherPolicyRow{&PricePolicy::overhead_per_hour, "overhead_per_hour"},
    FurtherPolicyRow{&PricePolicy::overhead_material, "overhead_material"},
    FurtherPolicyRow{&PricePolicy::overhead_labour, "overhead_labour"},
    FurtherPolicyRow{&PricePolicy::overhead_subcontract, "overhead_subcontract"},
    FurtherPolicyRow{&PricePolicy::margin_material, "margin_material"},
    FurtherPolicyRow{&PricePolicy::margin_labour, "margin_labour"},
    FurtherPolicyRow{&PricePolicy::margin_subcontract, "margin_subcontract"},
    FurtherPolicyRow{&PricePolicy::small_order_limit, "small_order_limit"},
    FurtherPolicyRow{&PricePolicy::small_order_surcharge, "small_order_surcharge"},
    FurtherPolicyRow{&PricePolicy::escalation_percent_per_month, "escalation_percent_per_month"}};

/// A row that holds one of some words; the first is taken where the row is absent.
struct WordChoice {
    std::string PricePolicy::*member;
    std::string_view row;
    std::array<std::string_view, 3> words;
};
constexpr auto policy_words = std::array{
    WordChoice{&PricePolicy::order, "percent_order", {"compound", "additive"}},
    WordChoice{&PricePolicy::overhead_style, "overhead_style", {"percent", "per_hour", "by_class"}},
    WordChoice{&PricePolicy::margin_style, "margin_style", {"one", "by_class"}},
    WordChoice{&PricePolicy::rates_are, "rates_are", {"cost", "charge_out"}},
    WordChoice{&PricePolicy::pack_charge, "pack_charge", {"need", "pack", "part"}},
    WordChoice{&PricePolicy::tax_rounding, "tax_rounding", {"total", "line"}}};

template <std::size_t count>
std::string word_of(RuleReader& reader, std::string_view table, std::string_view row,
                    const std::array<std::string_view, count>& words) {
    const std::optional<RowView> found = reader.row(table, row);
    if (!found) return std::string(words.front());
    const std::string word = found->cell("value");
    if (!word.empty() && std::find(words.begin(), words.end(), word) != words.end()) return word;
    std::string wanted;
    for (const std::string_view each : words)
        if (!each.empty()) wanted += (wanted.empty() ? "" : ", ") + std::string(each);
    reader.fault(table, row, "value", "'" + word + "', expected one of " + wanted);
    return std::string(words.front());
}

bool is_word_of(const RuleBook& book, std::string_view key, const std::string& word) {
    return std::any_of(book.words.begin(), book.words.end(),
                       [&](const WordRow& row) { return row.key == key && row.word == word; });
}

void read_policy(RuleReader& reader, RuleBook& book) {
    for (const PolicyRow& each : policy_rows)
        book.policy.*each.member = reader.required(policy_table, each.row);
    for (const FurtherPolicyRow& each : further_policy_rows)
        book.policy.*each.member = reader.optional(policy_table, each.row);
    for (const WordChoice& each : policy_words)
        book.policy.*each.member = word_of(reader, policy_table, each.row, each.words);
    if (const std::optional<RowView> currency = reader.row(policy_table, "currency"))
        book.policy.currency = currency->cell("value");
}

void read_learning(RuleReader& reader, RuleBook& book) {
    book.learning.slope = reader.optional(learning_table, "slope");
    if (!book.learning.slope) return;
    constexpr auto theories = std::array<std::string_view, 2>{"crawford", "wright"};
    book.learning.theory = word_of(reader, learning_table, "theory", theories);
    const double slope = book.learning.slope->number();
    if (!(slope > 0 && slope <= 100))
        reader.fault(learning_table, "slope", "value",
                     "'" + book.learning.slope->text() + "', expected above 0 to 100 %");
}

void check_condition(RuleReader& reader, const RuleBook& book, std::string_view table,
                     const RowView& row) {
    const std::string text = row.cell("condition");
    if (!known_condition(book, text))
        reader.fault(table, row.key(), "condition",
                     "'" + text +
                         "', expected always, or terms as scope.packing=included, quantity>1 "
                         "joined by \" and \"");
}

/// The row `most` is the limit of the product.
void read_hand_factors(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("hand_factors")) {
        if (row.key() == "most") {
            book.most_hand_factor = row.value_rule();
            continue;
        }
        check_condition(reader, book, "hand_factors", row);
        const std::string work_class = row.cell("class");
        if (!book.rates.contains(work_class))
            reader.fault("hand_factors", row.key(), "class",
                         "'" + work_class + "', expected a class with a row in the table rates");
        book.hand_factors.push_back({row.value_rule(), work_class, row.cell("condition")});
    }
}

void read_charges(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("charges")) {
        check_condition(reader, book, "charges", row);
        const std::string role = row.cell("role");
        if (!is_word_of(book, "#bill[].role", role))
            reader.fault("charges", row.key(), "role",
                         "'" + role + "', expected a word of the table words, key #bill[].role");
        book.charges.push_back({row.value_rule(), row.cell("description"), role, row.cell("of"),
                                row.cell("condition")});
    }
}

void read_terms(const RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("delivery_terms"))
        book.delivery_terms.push_back(
            {row.key(), row.cell("meaning"), row.cell("carriage") == "seller",
             row.cell("insurance") == "seller", row.cell("duty") == "seller"});
}

void read_exchange(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("exchange_rates")) {
        ExchangeRate rate{row.key(), row.rule("rate", ""), row.rule("buffer_percent", "%"),
                          row.cell("date")};
        if (rate.rate.number() <= 0)
            reader.fault("exchange_rates", row.key(), "rate",
                         "'" + rate.rate.text() + "', expected more than 0");
        if (!Date::parse(rate.date))
            reader.fault("exchange_rates", row.key(), "date",
                         "'" + rate.date + "', expected a date as 2026-11-24");
        book.exchange_rates.push_back(std::move(rate));
    }
}

void read_classes(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("estimate_classes")) {
        const auto number = parse_decimal(row.key());
        if (!number || number->places != 0)
            reader.fault("estimate_classes", row.key(), "row",
                         "'" + row.key() + "', expected the number of the class, 1 to 5");
        else
            book.estimate_classes.push_back(
                {static_cast<int>(number->digits), row.rule("low", "%"), row.rule("high", "%")});
    }
}

} // namespace

void read_price(RuleReader& reader, RuleBook& book) {
    read_policy(reader, book);
    read_learning(reader, book);
    read_hand_factors(reader, book);
    read_charges(reader, book);
    read_terms(reader, book);
    read_exchange(reader, book);
    read_classes(reader, book);
}

} // namespace backplate
