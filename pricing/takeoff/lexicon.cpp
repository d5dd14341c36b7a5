#include "pricing/takeoff/lexicon.h"

#include <algorithm>
#include <bitset>

namespace backplate {
namespace {

/// The bytes with which words and numbers of a text begin; others cannot begin a match.
class Beginnings {
public:
    explicit Beginnings(const Squeezed& text) {
        for (std::size_t at = 0; at < text.text.size(); ++at) {
            if (!text.starts[at]) continue;
            const char first = text.text[at];
            begins_[static_cast<unsigned char>(first)] = true;
            if ((first >= '0' && first <= '9') || first == '.') begins_['#'] = true;
        }
    }
    bool has(const Squeezed& spelling) const {
        return !spelling.empty() && begins_[static_cast<unsigned char>(spelling.text[0])];
    }

private:
    std::bitset<256> begins_;
};

std::optional<Match> first_match(const Squeezed& text, const Beginnings& beginnings,
                                 const Squeezed& spelling) {
    if (!beginnings.has(spelling)) return std::nullopt;
    Match match;
    for (std::size_t at = 0; at < text.text.size(); ++at)
        if (matches_at(text, at, spelling, match)) return match;
    return std::nullopt;
}

std::size_t length(const Match& match) { return match.end - match.begin; }

} // namespace

Lexicon::Lexicon(const std::vector<Spelling>& rows) {
    for (const Spelling& row : rows)
        spellings_[row.meaning].push_back({lower_ascii(row.text), squeeze(row.text)});
}

const std::vector<Lexicon::Entry>& Lexicon::of(std::string_view meaning) const {
    const auto found = spellings_.find(meaning);
    return found == spellings_.end() ? none_ : found->second;
}

bool Lexicon::says(const Squeezed& text, std::string_view meaning) const {
    return find(text, meaning).has_value();
}

bool Lexicon::is(const Squeezed& text, std::string_view meaning) const {
    return std::ranges::any_of(of(meaning), [&](const Entry& entry) {
        Match match;
        return !text.empty() && matches_at(text, 0, entry.squeezed, match) &&
               match.end == text.text.size();
    });
}

bool Lexicon::is_written(std::string_view text, std::string_view meaning) const {
    const std::string lower = lower_ascii(std::string(text));
    return std::ranges::any_of(of(meaning),
                               [&](const Entry& entry) { return entry.written == lower; });
}

bool Lexicon::begins(const Squeezed& text, std::string_view meaning) const {
    return std::ranges::any_of(of(meaning), [&](const Entry& entry) {
        Match match;
        return matches_at(text, 0, entry.squeezed, match);
    });
}

std::optional<Match> Lexicon::find(const Squeezed& text, std::string_view meaning) const {
    std::optional<Match> best;
    if (text.empty()) return best;
    const Beginnings beginnings(text);
    for (const Entry& entry : of(meaning)) {
        auto match = first_match(text, beginnings, entry.squeezed);
        if (match && (!best || length(*match) > length(*best))) best = std::move(match);
    }
    return best;
}

std::set<std::string> Lexicon::words_said(const Squeezed& text, std::string_view prefix) const {
    struct Said {
        std::string word;
        Match match;
    };
    std::vector<Said> all;
    const Beginnings beginnings(text);
    const std::string first = std::string(prefix) + ":";
    for (auto it = spellings_.lower_bound(first);
         it != spellings_.end() && it->first.starts_with(first); ++it)
        for (const Entry& entry : it->second)
            if (auto match = first_match(text, beginnings, entry.squeezed))
                all.push_back({it->first.substr(first.size()), std::move(*match)});
    std::set<std::string> words;
    for (const Said& said : all) {
        const bool inside = std::ranges::any_of(all, [&](const Said& other) {
            return other.match.begin <= said.match.begin && other.match.end >= said.match.end &&
                   length(other.match) > length(said.match);
        });
        if (!inside) words.insert(said.word);
    }
    return words;
}

} // namespace backplate
