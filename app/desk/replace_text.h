#pragma once

#include "app/desk/answer_text.h"
#include "pricing/job/replacements.h"

namespace backplate {

/// part, what it is, price, width, heat, hours, lead time: differences of the whole job; of what
/// cannot be built why instead.
TextRows replacement_rows(const std::vector<Replacement>& found, const PriceBook& book, int digits,
                          const FigureText& text);

/// Every fact of a part, beside it the same of another one: name with unit, now, instead. `other`
/// null: of the part alone.
TextRows fact_rows(const Part& part, const Part* other);

} // namespace backplate
