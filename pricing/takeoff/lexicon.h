#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/takeoff/plain_text.h"

namespace backplate {

/// The spellings of a rule table by what they mean.
class Lexicon {
public:
    explicit Lexicon(const std::vector<Spelling>& rows);

    /// A spelling of the meaning stands somewhere in the text.
    bool says(const Squeezed& text, std::string_view meaning) const;
    /// The whole text is a spelling of the meaning.
    bool is(const Squeezed& text, std::string_view meaning) const;
    /// The text is a spelling of the meaning as it is written, but for case: "E/A" is not "EA".
    bool is_written(std::string_view text, std::string_view meaning) const;
    /// The text begins with a spelling of the meaning.
    bool begins(const Squeezed& text, std::string_view meaning) const;
    /// The longest match of the meaning in the text, the first of equals.
    std::optional<Match> find(const Squeezed& text, std::string_view meaning) const;

    /// Meanings PREFIX:WORD that the text says, as WORDs. A spelling that lies inside a longer one
    /// of the same prefix does not count ("Modbus" in "Modbus TCP").
    std::set<std::string> words_said(const Squeezed& text, std::string_view prefix) const;

private:
    struct Entry {
        std::string written; ///< lower case
        Squeezed squeezed;
    };
    const std::vector<Entry>& of(std::string_view meaning) const;

    std::map<std::string, std::vector<Entry>, std::less<>> spellings_;
    std::vector<Entry> none_;
};

} // namespace backplate
