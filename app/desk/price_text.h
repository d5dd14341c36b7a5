#pragma once

#include <string>
#include <vector>

#include "app/desk/answer_text.h"
#include "app/engine_thread.h"

namespace backplate {

/// A part of the price; `cuts` are the amounts of its classes, where it has some.
struct PriceShare {
    std::string name;
    Money amount;
    std::vector<std::pair<std::string, Money>> cuts;
};

/// Material with freight, labour by class, contingency, overhead, margin: what the price is made
/// of. Concession and rounding are left out.
std::vector<PriceShare> price_shares(const Estimate& estimate);

/// What the two ends of the range mean: the price at which the cost is covered with even odds, and
/// four times in five, with the same margin.
std::string even_words(const PriceResult& price, const FigureText& text);
std::string enough_words(const PriceResult& price, const FigureText& text);

/// class, hours, cost; by hours, the sum last
TextRows class_rows(const Estimate& estimate, const FigureText& text);
/// ratio, value, usual range, whether it lies in it
TextRows ratio_rows(const Estimate& estimate, const FigureText& text);

/// price, width, heat, hours, lead: what another panel takes more
std::vector<std::string> difference_cells(const Difference& other, int digits,
                                          const FigureText& text);
/// number (of those that a key takes), title, price, width, heat, hours, lead: differences against
/// the base, where that is built, else the price alone
TextRows alternative_rows(const Alternatives& found, const FigureText& text, bool numbered = true);
/// Whether the prices lie nearer together than the estimate is sure of (P80 less P50).
bool no_real_difference(const Alternative& each, const PriceResult& base);
/// What an alternative is, in words.
std::string alternative_words(const Alternative& each, const Alternatives& found,
                              const FigureText& text);
/// What stands below the alternatives while none is chosen.
std::string none_chosen_words(const Alternatives& found);

/// What changed from one estimate to the next: price, hours, heat, enclosure, modules; empty where
/// nothing did.
std::string change_words(const Estimate& before, const Estimate& now, const FigureText& text);

/// "may be sent", or what forbids it; `pointer` leads to the first stop.
struct SendState {
    bool may = false;
    std::string words, pointer;
};
SendState send_state(const DeskState& state);

/// "due in 9 days", "due today", "3 days late"; empty without a day.
std::string days_left(const DeskState& state);

} // namespace backplate
