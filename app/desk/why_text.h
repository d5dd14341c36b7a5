#pragma once

#include <string>
#include <vector>

#include "app/desk/answer_text.h"
#include "pricing/book/rule_tables.h"

namespace backplate {

/// The figures of an estimate that stand at a pointer or below it and have a basis.
std::vector<const BasisEntry*> basis_below(const Estimate& estimate, const std::string& pointer);

/// A figure for a reader: "box CP1, heat, inside w".
std::string figure_words(const std::string& pointer, const Estimate& estimate);

/// One row per figure: name, value with unit.
TextRows basis_rows(const std::vector<const BasisEntry*>& entries, const Estimate& estimate,
                    const FigureText& text);
/// One row per input: letter, what, value with unit, where it stands.
TextRows input_rows(const BasisEntry& entry, const Estimate& estimate, const FigureText& text);

/// The row `table/row` of the rules, cell by cell: column, value, meaning; none: no such row.
TextRows rule_rows(const std::string& rule, const RuleTables& tables);

/// The row of `defaults` behind a value of the request, as `table/row`: its own, else that of the
/// nearest value around it; empty: none.
std::string default_rule(const std::string& pointer, const RuleTables& tables);

} // namespace backplate
