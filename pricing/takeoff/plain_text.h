#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// A cell as a person reads it: blanks of every kind squeezed to one, marks of hidden direction and
/// zero width gone, the apostrophe or ="…" by which spreadsheets keep a text stripped. UTF-8.
std::string clean_text(std::string_view cell);

/// Letters A to Z as a to z, everything else as it is.
std::string lower_ascii(std::string text);

/// Text for comparing: case, accents, full-width and look-alike letters folded, everything but
/// letters, numbers, % ± # dropped. Where something was dropped, or letters meet digits, is a
/// boundary: "D.I.", "D/I" and "DI" become equal, "4…20 mA" equals "4-20mA", but "420 mA" does not.
/// A decimal comma or point stays inside its number.
struct Squeezed {
    std::string text;
    std::vector<bool> starts; ///< text.size() + 1 flags: a word or number starts (or ends) here

    bool empty() const { return text.empty(); }
    friend bool operator==(const Squeezed&, const Squeezed&) = default;
};

Squeezed squeeze(std::string_view text);

/// Where and what a spelling matched.
struct Match {
    std::size_t begin = 0, end = 0;
    std::vector<std::string> numbers; ///< what each # of the spelling stood for
};

/// Whether the spelling, in which # stands for any number, stands in the text at `at`, from
/// boundary to boundary. Fills `match` where it does.
bool matches_at(const Squeezed& text, std::size_t at, const Squeezed& spelling, Match& match);

} // namespace backplate
