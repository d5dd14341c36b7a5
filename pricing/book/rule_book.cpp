#include "pricing/book/rule_book.h"

#include <algorithm>

#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

template <class Row>
const Row* find_row(const std::vector<Row>& rows, std::string_view wanted, std::string Row::*key) {
    for (const Row& row : rows)
        if (row.*key == wanted) return &row;
    return nullptr;
}

} // namespace

const Signal* RuleBook::find_signal(std::string_view key) const {
    return find_row(signals, key, &Signal::key);
}

const Interface* RuleBook::find_interface(std::string_view via, std::string_view signal) const {
    for (const Interface& row : interfaces)
        if (row.via == via && row.signal == signal) return &row;
    return nullptr;
}

const Rule* RuleBook::sundries_share(std::string_view group) const {
    for (const SmallPartRow& row : small_parts)
        if (row.group == group && row.of_sundries) return &*row.of_sundries;
    return nullptr;
}

const LinkRow* RuleBook::find_link(std::string_view medium) const {
    return find_row(links, medium, &LinkRow::medium);
}

const FindingRow* RuleBook::find_finding(std::string_view code) const {
    return find_row(findings, code, &FindingRow::code);
}

const Material* RuleBook::find_material(std::string_view key) const {
    return find_row(materials, key, &Material::key);
}

const DeliveryTerm* RuleBook::find_term(std::string_view key) const {
    return find_row(delivery_terms, key, &DeliveryTerm::key);
}

const ExchangeRate* RuleBook::find_exchange(std::string_view currency) const {
    return find_row(exchange_rates, currency, &ExchangeRate::key);
}

const SiteLimit* RuleBook::find_site_limit(std::string_view key) const {
    return find_row(site_limits, key, &SiteLimit::key);
}

bool SiteLimit::allows_material(std::string_view material) const {
    return materials.empty() ||
           std::find(materials.begin(), materials.end(), material) != materials.end();
}

bool SiteLimit::allows_stage(std::string_view stage) const {
    return std::find(no_stages.begin(), no_stages.end(), stage) == no_stages.end();
}

int RuleBook::digits_of(const std::string& currency) const {
    constexpr int usual = 2; // ISO 4217: the exponent of all but a few currencies
    const auto found = currency_digits.find(currency);
    return found == currency_digits.end() ? usual : found->second;
}

RuleBookResult make_rule_book(const RuleTables& tables) {
    RuleBookResult result;
    result.faults = check_rules(tables);
    if (!result.faults.empty()) return result;
    auto book = std::make_shared<RuleBook>();
    book->issue = tables.issue;
    RuleReader reader(tables, result.faults);
    read_lists(reader, *book);
    read_figures(reader, *book);
    read_grouping(reader, *book);
    read_site(reader, *book);
    read_room(reader, *book);
    read_suites(reader, *book);
    read_site_parts(reader, *book);
    read_small_parts(reader, *book);
    read_labour(reader, *book);
    read_texts_of_offer(reader, *book);
    read_price(reader, *book);
    if (result.faults.empty()) result.book = std::move(book);
    return result;
}

} // namespace backplate
