#include "pricing/request/words.h"

#include <algorithm>

#include "pricing/request/check_request.h"
#include "pricing/request/word_pattern.h"

namespace backplate {
namespace {

constexpr std::size_t longest_word = 64;

/// Edits that turn one word into the other: a character more, less, changed, or two swapped.
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> cost(a.size() + 1,
                                               std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) cost[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j) cost[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i)
        for (std::size_t j = 1; j <= b.size(); ++j) {
            cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1,
                                   cost[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
        }
    return cost[a.size()][b.size()];
}

std::string plain(std::string_view word) {
    std::string text;
    for (const char c : word)
        if (c != '_' && c != ' ' && c != '-')
            text += c >= 'A' && c <= 'Z' ? char(c - 'A' + 'a') : c;
    return text;
}

/// Case and separators do not count; the beginning of a longer word is near.
std::size_t distance(std::string_view meant, std::string_view word) {
    const std::string a = plain(meant), b = plain(word);
    if (a.size() >= 3 && b.starts_with(a)) return 1;
    return edit_distance(a, b);
}

bool names_signal(std::string_view list, std::string_view signal) {
    while (!list.empty()) {
        const auto end = std::min(list.find(' '), list.size());
        if (list.substr(0, end) == signal) return true;
        list.remove_prefix(std::min(end + 1, list.size()));
    }
    return false;
}

} // namespace

std::string nearest_word(const std::string& word, const std::vector<std::string>& words) {
    if (word.size() > longest_word) return {};
    const std::size_t limit = std::max<std::size_t>(1, (word.size() + 1) / 3);
    std::string best;
    std::size_t least = limit + 1;
    for (const std::string& candidate : words) {
        if (candidate.size() > longest_word || !pattern_of(candidate).empty()) continue;
        const std::size_t steps = distance(word, candidate);
        if (steps >= least) continue;
        least = steps;
        best = candidate;
    }
    return best;
}

std::string_view pattern_of(std::string_view word) {
    const bool pattern = word.size() > 2 && word.front() == '/' && word.back() == '/';
    return pattern ? word.substr(1, word.size() - 2) : std::string_view();
}

bool Words::Word::goes_with(std::string_view signal) const {
    return signal.empty() || applies_to.empty() || names_signal(applies_to, signal);
}

Words::Words(const RuleBook& rules, const Node& sent) {
    for (const WordRow& row : rules.words) {
        const bool name_of_box = row.key == controller_key && !pattern_of(row.word).empty();
        if (row.key != signal_key && !name_of_box)
            words_.push_back({row.key, row.word, row.applies_to});
    }
    for (const Signal& signal : rules.signals)
        words_.push_back({std::string(signal_key), signal.key, {}});
    const Node* boxes = sent.find("boxes");
    if (!boxes) return;
    for (const Node& box : boxes->items)
        if (const Node* name = box.find("name"); name && name->is(Node::Kind::text))
            words_.push_back({std::string(controller_key), name->text, {}});
}

std::vector<std::string> Words::of(const std::string& key, std::string_view signal) const {
    std::vector<std::string> result;
    for (const Word& each : words_)
        if (each.key == key && each.goes_with(signal)) result.push_back(each.word);
    return result;
}

Words::Fit Words::fit(const std::string& key, const std::string& word,
                      std::string_view signal) const {
    bool open = true;
    Fit result = Fit::unknown;
    for (const Word& each : words_) {
        if (each.key != key) continue;
        open = false;
        const auto pattern = pattern_of(each.word);
        if (pattern.empty() ? each.word != word : !matches_pattern(pattern, word)) continue;
        if (each.goes_with(signal)) return Fit::yes;
        result = Fit::other_signal;
    }
    return open ? Fit::yes : result;
}

} // namespace backplate
