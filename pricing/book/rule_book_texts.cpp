#include <algorithm>
#include <array>

#include "pricing/book/offer_text.h"
#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

constexpr std::string_view table = "texts";
constexpr std::string_view yes_no = "yes no";
constexpr std::string_view scope_prefix = "scope.", circumstance_prefix = "circumstance.";

constexpr auto facts = std::array{
    OfferFact{"practice", "@job.practice"},
    OfferFact{"spare.kind", "@spare.kind unstated"},
    OfferFact{"delivery_term", "@commercial.delivery_term"},
    OfferFact{"cooling", "@#boxes[].heat.stage none"},
    OfferFact{"enclosure", "ours by_client plate_only existing_plate"},
    OfferFact{"fault_current", "known unknown"},
    OfferFact{"tax", "none stated"},
    OfferFact{"approvals", ""},
    OfferFact{"quantity", ""},
    OfferFact{"room_percent", ""},
    OfferFact{"backup_minutes", ""},
    OfferFact{"feeds", ""},
    OfferFact{"estimate_class", ""},
    OfferFact{"has.points", yes_no},
    OfferFact{"has.spare", yes_no},
    OfferFact{"has.field_loads", yes_no},
    OfferFact{"has.safety", yes_no},
    OfferFact{"has.glands", yes_no},
    OfferFact{"has.power_circuits", yes_no},
    OfferFact{"has.rating", yes_no},
    OfferFact{"has.both_marks", yes_no},
    OfferFact{"has.network", yes_no},
    OfferFact{"has.delivery", yes_no},
    OfferFact{"has.old_prices", yes_no},
    OfferFact{"has.options", yes_no},
    OfferFact{"has.client_parts", yes_no},
    OfferFact{"has.demo_prices", yes_no},
};

constexpr auto values = std::array{
    OfferValue{"box_count", "panels of the job"},
    OfferValue{"point_count", "points used in all of them"},
    OfferValue{"basis", "enquiry and lists that the request names, else its date"},
    OfferValue{"witness_days", "scope.witness_days"},
    OfferValue{"site_days", "scope.site_days"},
    OfferValue{"languages", "scope.languages"},
    OfferValue{"delivery_term", "commercial.delivery_term"},
    OfferValue{"room_percent", "choices.room_percent"},
    OfferValue{"quantity", "equal panels"},
    OfferValue{"feeds", "incoming supplies"},
    OfferValue{"rating_ka", "short-circuit rating offered, kA"},
    OfferValue{"fault_ka", "fault current stated, kA"},
    OfferValue{"ambient", "lowest to highest ambient, in the units of the job"},
    OfferValue{"altitude", "height above the sea, in the units of the job"},
    OfferValue{"place", "site.place in words"},
    OfferValue{"backup_minutes", "choices.backup_minutes"},
    OfferValue{"approvals", "site.approvals"},
    OfferValue{"mark", "degree of protection offered"},
    OfferValue{"currency", "job.currency"},
    OfferValue{"valid_until", "last day of the offer"},
    OfferValue{"tax_percent", "commercial.tax_percent"},
    OfferValue{"old_lines", "lines of the bill whose price is older than the limit"},
    OfferValue{"price_age_limit", "limit of the finding PRICE_OLD, days"},
    OfferValue{"weeks", "delivery, weeks"},
    OfferValue{"critical_part", "part that decides the delivery, by its description"},
    OfferValue{"p50", "price at which the cost is covered with even odds"},
    OfferValue{"p80", "the same, four times in five"},
};

bool has_word(const RuleBook& book, std::string_view key, std::string_view word) {
    return std::any_of(book.words.begin(), book.words.end(),
                       [&](const WordRow& row) { return row.key == key && row.word == word; });
}

std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words;
    while (!text.empty()) {
        const auto end = std::min(text.find(' '), text.size());
        if (end > 0) words.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

/// The words of a fact with those of the table `words` in the place of "@KEY".
std::vector<std::string> words_of_fact(std::string_view words, const RuleBook& book) {
    std::vector<std::string> result;
    for (const std::string& word : words_in(words)) {
        if (!word.starts_with('@')) {
            result.push_back(word);
            continue;
        }
        for (const WordRow& row : book.words)
            if (row.key == word.substr(1)) result.push_back(row.word);
    }
    return result;
}

/// What the fact can be; no value: there is no such fact; no words: a number.
std::optional<std::vector<std::string>> choices_of(const std::string& key, const RuleBook& book) {
    for (const OfferFact& fact : facts)
        if (fact.key == key) return words_of_fact(fact.words, book);
    if (key.starts_with(circumstance_prefix)) {
        if (!has_word(book, "circumstances", key.substr(circumstance_prefix.size())))
            return std::nullopt;
        return words_in(yes_no);
    }
    if (!key.starts_with(scope_prefix)) return std::nullopt;
    for (const DefaultRow& row : book.defaults)
        if (row.key == key) return words_of_fact("@" + key, book);
    return std::nullopt;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
    return text;
}

std::string term_fault(const ConditionTerm& term, const RuleBook& book) {
    const auto choices = choices_of(term.key, book);
    if (!choices)
        return "'" + term.key +
               "' is no fact, expected one as scope.software, practice, "
               "has.spare or circumstance.site_work";
    const bool above = term.compare == ConditionTerm::Compare::above;
    if (choices->empty())
        return parse_decimal(term.value)
                   ? ""
                   : "'" + term.value + "', expected a number for " + term.key;
    if (above) return "'" + term.key + "' is no number, expected = or != and a word";
    if (std::find(choices->begin(), choices->end(), term.value) != choices->end()) return {};
    return "'" + term.value + "', expected for " + term.key + " one of " + joined(*choices);
}

class TextReader {
public:
    TextReader(RuleReader& reader, const RuleBook& book, const RowView& row)
        : reader_(reader), book_(book), row_(row) {}

    OfferTextRow read() {
        OfferTextRow result;
        result.id = row_.id();
        result.section = row_.cell("section");
        result.subject = row_.cell("subject");
        result.text = row_.cell("text");
        result.instead_of = words_in(row_.cell("instead_of"));
        read_condition(result);
        for (const TextPiece& piece : text_pieces(result.text))
            if (piece.is_name && !is_value(piece.text))
                fault("text", "'{" + piece.text +
                                  "}' is no value, expected a row of the table offer_figures or "
                                  "a value as {delivery_term}");
        for (const std::string& code : result.instead_of)
            if (!book_.find_finding(code))
                fault("instead_of", "'" + code + "', expected rows of the table findings");
        return result;
    }

private:
    void fault(std::string_view column, std::string text) {
        reader_.fault(table, row_.key(), column, std::move(text));
    }
    bool is_value(const std::string& name) const {
        return book_.offer_figures.contains(name) ||
               std::any_of(values.begin(), values.end(),
                           [&](const OfferValue& value) { return value.name == name; });
    }
    void read_condition(OfferTextRow& result) {
        const std::string condition = row_.cell("condition");
        auto terms = parse_condition(condition);
        if (!terms)
            return fault("condition", "'" + condition +
                                          "', expected always, or terms as scope.software=included,"
                                          " practice!=iec, approvals>0 joined by \" and \"");
        for (const ConditionTerm& term : *terms)
            if (const std::string text = term_fault(term, book_); !text.empty())
                fault("condition", text);
        result.terms = *std::move(terms);
    }

    RuleReader& reader_;
    const RuleBook& book_;
    const RowView& row_;
};

} // namespace

std::span<const OfferFact> offer_facts() { return facts; }

std::span<const OfferValue> offer_values() { return values; }

std::vector<TextPiece> text_pieces(std::string_view text) {
    std::vector<TextPiece> pieces;
    while (!text.empty()) {
        const auto open = text.find('{');
        const auto close = open == text.npos ? text.npos : text.find('}', open);
        const auto end = close == text.npos ? text.size() : open;
        if (end > 0) pieces.push_back({std::string(text.substr(0, end)), false});
        if (close == text.npos) break;
        pieces.push_back({std::string(text.substr(open + 1, close - open - 1)), true});
        text.remove_prefix(close + 1);
    }
    return pieces;
}

void read_texts_of_offer(RuleReader& reader, RuleBook& book) {
    book.offer_figures = reader.all("offer_figures");
    for (const RowView& row : reader.rows(table))
        book.offer_texts.push_back(TextReader(reader, book, row).read());
}

} // namespace backplate
