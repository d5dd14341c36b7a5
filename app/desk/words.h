#pragma once

#include <string>

#include <wx/arrstr.h>

#include "pricing/book/rule_book.h"

namespace backplate {

/// The words that the rule table allows for a key; patterns are left out.
inline wxArrayString allowed_words(const RuleBook& rules, const std::string& key) {
    wxArrayString words;
    for (const WordRow& row : rules.words)
        if (row.key == key && !row.word.starts_with('/')) words.Add(wxString::FromUTF8(row.word));
    return words;
}

} // namespace backplate
