#include "pricing/request/word_pattern.h"

#include <algorithm>
#include <charconv>
#include <cstddef>
#include <set>

namespace backplate {
namespace {

/// Places in the text that a part of the pattern can end at.
using Places = std::set<std::size_t>;

struct Atom {
    enum class Kind { character, any, set, group };
    Kind kind = Kind::character;
    std::string_view body;
};

struct Repeat {
    std::size_t least = 1, most = 1;
};

Places after_alternatives(std::string_view pattern, std::string_view text, const Places& from);

std::string_view take(std::string_view& pattern, std::size_t count) {
    const auto taken = pattern.substr(0, count);
    pattern.remove_prefix(taken.size());
    return taken;
}

/// Up to the bracket that closes the one at the front, escapes and inner brackets skipped.
std::string_view take_bracketed(std::string_view& pattern, char open, char close) {
    std::size_t depth = 0;
    for (std::size_t at = 0; at < pattern.size(); ++at) {
        if (pattern[at] == '\\') {
            ++at;
        } else if (pattern[at] == open && (open == '(' || at == 0)) {
            ++depth;
        } else if (pattern[at] == close && --depth == 0) {
            const auto whole = take(pattern, at + 1);
            return whole.substr(1, whole.size() - 2);
        }
    }
    return take(pattern, pattern.size()).substr(1);
}

Atom take_atom(std::string_view& pattern) {
    switch (pattern.front()) {
    case '(': return {Atom::Kind::group, take_bracketed(pattern, '(', ')')};
    case '[': return {Atom::Kind::set, take_bracketed(pattern, '[', ']')};
    case '.': return {Atom::Kind::any, take(pattern, 1)};
    case '\\': take(pattern, 1); break;
    default: break;
    }
    return {Atom::Kind::character, take(pattern, 1)};
}

std::size_t number_in(std::string_view text, std::size_t otherwise) {
    std::size_t number = otherwise;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

Repeat take_repeat(std::string_view& pattern, std::size_t text_size) {
    if (pattern.empty()) return {};
    switch (pattern.front()) {
    case '?': take(pattern, 1); return {0, 1};
    case '*': take(pattern, 1); return {0, text_size};
    case '+': take(pattern, 1); return {1, text_size};
    case '{': break;
    default: return {};
    }
    const auto counts = take_bracketed(pattern, '{', '}');
    const auto comma = counts.find(',');
    const std::size_t enough = text_size + 1; // further rounds can only repeat an empty match
    const auto least = std::min(number_in(counts.substr(0, comma), 0), enough);
    if (comma == std::string_view::npos) return {least, least};
    return {least, std::min(number_in(counts.substr(comma + 1), enough), enough)};
}

bool in_set(std::string_view set, char c) {
    const bool inverted = set.starts_with('^');
    if (inverted) set.remove_prefix(1);
    bool found = false;
    while (!set.empty()) {
        if (set.front() == '\\' && set.size() > 1) set.remove_prefix(1);
        const char low = take(set, 1).front();
        const bool range = set.size() > 1 && set.front() == '-';
        const char high = range ? take(set, 2).back() : low;
        found = found || (low <= c && c <= high);
    }
    return found != inverted;
}

bool accepts_character(const Atom& atom, char c) {
    switch (atom.kind) {
    case Atom::Kind::any: return true;
    case Atom::Kind::set: return in_set(atom.body, c);
    default: return atom.body == std::string_view(&c, 1);
    }
}

Places after_atom(const Atom& atom, std::string_view text, const Places& from) {
    if (atom.kind == Atom::Kind::group) return after_alternatives(atom.body, text, from);
    Places result;
    for (const std::size_t place : from)
        if (place < text.size() && accepts_character(atom, text[place])) result.insert(place + 1);
    return result;
}

Places after_sequence(std::string_view pattern, std::string_view text, Places places) {
    while (!pattern.empty()) {
        const Atom atom = take_atom(pattern);
        const Repeat repeat = take_repeat(pattern, text.size());
        Places result;
        for (std::size_t count = 0; count <= repeat.most && !places.empty(); ++count) {
            if (count >= repeat.least) result.insert(places.begin(), places.end());
            places = after_atom(atom, text, places);
        }
        places = std::move(result);
    }
    return places;
}

Places after_alternatives(std::string_view pattern, std::string_view text, const Places& from) {
    Places result;
    std::string_view rest = pattern;
    while (true) {
        std::string_view ahead = rest;
        while (!ahead.empty() && ahead.front() != '|') take_atom(ahead);
        const auto one = rest.substr(0, rest.size() - ahead.size());
        result.merge(after_sequence(one, text, from));
        if (ahead.empty()) return result;
        rest = ahead.substr(1);
    }
}

} // namespace

bool matches_pattern(std::string_view pattern, std::string_view text) {
    if (pattern.starts_with('^')) pattern.remove_prefix(1);
    if (pattern.ends_with('$')) pattern.remove_suffix(1);
    return after_alternatives(pattern, text, {0}).contains(text.size());
}

} // namespace backplate
