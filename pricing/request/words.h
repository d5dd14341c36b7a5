#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/request/node.h"

namespace backplate {

inline constexpr std::string_view signal_key = "boxes[].points[].signal";
inline constexpr std::string_view controller_key = "boxes[].controlled_by";

/// The words that the keys of one request take: rows of `words` and of the signal table, and for
/// the controller the names of the boxes.
class Words {
public:
    enum class Fit { yes, unknown, other_signal };

    Words(const RuleBook& rules, const Node& sent);

    /// As the rows write them, patterns between strokes; empty: any text will do. With a signal,
    /// only those that go with it.
    std::vector<std::string> of(const std::string& key, std::string_view signal = {}) const;
    /// `signal` is that of the line which the key belongs to, or empty.
    Fit fit(const std::string& key, const std::string& word, std::string_view signal) const;

private:
    struct Word {
        std::string key, word, applies_to;
        bool goes_with(std::string_view signal) const;
    };
    std::vector<Word> words_;
};

/// A pattern between strokes, or empty where the word is no pattern.
std::string_view pattern_of(std::string_view word);

} // namespace backplate
