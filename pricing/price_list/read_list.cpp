#include "pricing/price_list/read_list.h"

#include <algorithm>
#include <array>

#include "pricing/book/part_readers.h"
#include "pricing/price_list/list_text.h"
#include "pricing/takeoff/plain_text.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr auto amounts = std::array<std::string_view, 3>{"list", "net", "discount_percent"};
constexpr auto dates = std::array<std::string_view, 2>{"price_date", "valid_until"};
constexpr auto counts = std::array<std::string_view, 2>{"pack", "minimum_order"};
constexpr int most_price_of = 100000;

class ListReader {
public:
    ListReader(std::string name, const std::vector<ListCells>& rows, const std::vector<int>& places,
               const PriceMap& map, const ListRules& rules)
        : name_(std::move(name)), rows_(rows), places_(places), map_(map), rules_(rules),
          heading_(find_list_heading(name_, rows, map, rules)) {
        decimal_ =
            map.decimal.empty() ? find_decimal_mark(name_, texts_of(amounts)) : map.decimal.front();
        day_first_ =
            map.dates.empty() ? find_day_first(name_, texts_of(dates)) : map.dates == "day_first";
    }

    PriceList read() {
        PriceList list{{}, map_, heading_.unused};
        list.map.columns = heading_.used;
        list.map.decimal = std::string(1, decimal_);
        list.map.dates = day_first_ ? "day_first" : "month_first";
        for (at_ = heading_.row + 1; at_ < rows_.size(); ++at_)
            if (holds_offer()) list.offers.push_back(read_offer());
        if (list.offers.empty())
            throw BadInput(name_ + ": holds no line below its headings; expected prices");
        return list;
    }

private:
    std::string cell_at(std::size_t row, std::string_view meaning) const {
        const auto column = heading_.find(meaning);
        if (!column || *column >= rows_[row].size()) return {};
        return clean_text(rows_[row][*column]);
    }

    /// The cell of the row, else what the map fixes for it.
    std::string cell(std::string_view meaning) const {
        const std::string text = cell_at(at_, meaning);
        const auto fixed = map_.fixed.find(meaning);
        return text.empty() && fixed != map_.fixed.end() ? fixed->second : text;
    }

    /// A value that the map fixes has the program's own form already.
    bool is_fixed(std::string_view meaning) const { return cell_at(at_, meaning).empty(); }

    [[noreturn]] void refuse(std::string_view meaning, const std::string& expected) const {
        const auto column = heading_.find(meaning);
        const std::string heading = column ? clean_text(rows_[heading_.row][*column]) : "";
        throw BadInput(name_ + ": row " + std::to_string(places_[at_]) + ": part " + cell("part") +
                       ": column '" + heading + "' is '" + cell(meaning) + "'; expected " +
                       expected);
    }

    /// The figures of amounts, or dates as they stand; of chains of discounts nothing.
    template <class Meanings> std::vector<PlacedText> texts_of(const Meanings& meanings) const {
        std::vector<PlacedText> texts;
        for (std::size_t row = heading_.row + 1; row < rows_.size(); ++row)
            for (const std::string_view meaning : meanings) {
                std::string text = cell_at(row, meaning);
                if (meaning != dates[0] && meaning != dates[1]) {
                    const auto amount = split_amount(text);
                    text = amount ? amount->figures : "";
                    if (text.find('/') != std::string::npos) text.clear();
                }
                if (!text.empty()) texts.push_back({places_[row], text});
            }
        return texts;
    }

    bool holds_offer() const {
        if (cell_at(at_, "part").empty()) return false;
        return std::count_if(rows_[at_].begin(), rows_[at_].end(),
                             [](const std::string& each) { return !clean_text(each).empty(); }) > 1;
    }

    ListOffer read_offer() {
        ListOffer offer;
        offer.row = places_[at_];
        offer.key = cell("part");
        offer.alias = cell("alias");
        offer.maker = cell("maker");
        offer.successor = cell("successor");
        offer.net = heading_.find("net").has_value();
        read_price(offer, offer.net ? "net" : "list");
        read_price_of(offer);
        for (const auto date : dates) add(offer, date, date_text(date));
        for (const auto count : counts) add(offer, count, number_text_of(count));
        add(offer, "discount_percent", discount_text());
        add(offer, "lead_days", lead_text());
        add(offer, "state", state_text());
        add(offer, "description", cell("description"));
        return offer;
    }

    void read_price(ListOffer& offer, std::string_view meaning) const {
        const auto amount = split_amount(cell(meaning));
        const std::string wanted =
            std::string("an amount such as 1250") + decimal_ + "50 with its currency or none";
        if (!amount) refuse(meaning, wanted);
        const std::string own = cell("currency");
        const std::string of_heading = heading_.currency[*heading_.find(meaning)];
        offer.currency = !own.empty() ? own : amount->currency;
        if (offer.currency.empty())
            offer.currency = of_heading.empty() ? map_.currency : of_heading;
        if (amount->figures.empty()) {
            if (!cell(meaning).empty() && !rules_.says("on_request", cell(meaning)))
                refuse(meaning, wanted + ", or a word of the rows on_request in the table "
                                         "price_list_spellings");
            return;
        }
        const auto number = plain_number(amount->figures, decimal_);
        offer.price = number ? Money::parse(*number) : std::nullopt;
        if (!offer.price || *offer.price < Money{} || *offer.price > Money::whole(100'000'000))
            refuse(meaning, wanted + ", from 0 to 100000000 with at most four decimals");
    }

    void read_price_of(ListOffer& offer) const {
        const std::string text = cell("price_unit");
        if (text.empty() || rules_.says("one_piece", text)) return;
        offer.of_pack = rules_.says("per_pack", text);
        if (offer.of_pack) return;
        const auto first = text.find_first_of("0123456789");
        const auto last = text.find_last_of("0123456789");
        const auto figures = first == std::string::npos ? "" : text.substr(first, last - first + 1);
        const auto number = plain_number(figures, decimal_);
        const auto pieces = number ? integer_in(*number, 1, most_price_of) : std::nullopt;
        if (!pieces)
            refuse("price_unit", "the pieces that the price is of, such as 1 or 100, or a word of "
                                 "the rows one_piece or per_pack in the table "
                                 "price_list_spellings");
        offer.price_of = *pieces;
    }

    std::string date_text(std::string_view meaning) const {
        const std::string text = cell(meaning);
        if (text.empty()) return text;
        const auto date = plain_date(text, day_first_);
        if (!date) refuse(meaning, "a date such as 2026-11-24 or 24.11.2026");
        return *date;
    }

    std::string number_text_of(std::string_view meaning) const {
        const std::string text = cell(meaning);
        if (text.empty() || is_fixed(meaning)) return text;
        const auto number = plain_number(text, decimal_);
        const auto value = number ? parse_decimal(*number) : std::nullopt;
        if (!value) refuse(meaning, expectation(*find_part_field(meaning)));
        return number_text(value->number());
    }

    std::string discount_text() const {
        const std::string text = cell("discount_percent");
        if (text.empty() || is_fixed("discount_percent")) return text;
        std::string chain, piece;
        for (const char c : text + "/") {
            if (c != '/') {
                if (c != ' ' && c != '%') piece += c;
                continue;
            }
            const auto number = plain_number(piece, decimal_);
            if (!number) refuse("discount_percent", "discounts from 0 to 100 such as 30/10");
            chain += (chain.empty() ? "" : "/") + *number;
            piece.clear();
        }
        return chain;
    }

    /// Calendar days: working days are five in seven, begun days count.
    std::string lead_text() const {
        const std::string text = cell("lead_days");
        if (text.empty() || is_fixed("lead_days")) return text;
        const auto count = integer_in(text, 0, 3650);
        if (!count) refuse("lead_days", "a whole number of " + map_.lead_unit);
        const int days = map_.lead_unit == "weeks"          ? *count * 7
                         : map_.lead_unit == "working_days" ? (*count * 7 + 4) / 5
                                                            : *count;
        return std::to_string(days);
    }

    std::string state_text() const {
        const std::string text = cell("state");
        const auto own = map_.states.find(text);
        return own == map_.states.end() ? text : own->second;
    }

    void add(ListOffer& offer, std::string_view meaning, const std::string& text) const {
        if (text.empty()) return;
        const PartField* field = find_part_field(meaning);
        Part scratch;
        if (!field->read(scratch, text))
            refuse(meaning, expectation(*field) +
                                (meaning == "state" ? ", or words that the map translates" : ""));
        offer.fields.emplace_back(field, text);
    }

    std::string name_;
    const std::vector<ListCells>& rows_;
    const std::vector<int>& places_;
    const PriceMap& map_;
    const ListRules& rules_;
    ListHeading heading_;
    char decimal_ = '.';
    bool day_first_ = true;
    std::size_t at_ = 0;
};

} // namespace

PriceList read_price_list(const std::string& name, const std::vector<ListCells>& rows,
                          const std::vector<int>& row_numbers, const PriceMap& map,
                          const ListRules& rules) {
    return ListReader(name, rows, row_numbers, map, rules).read();
}

} // namespace backplate
