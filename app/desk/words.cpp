#include "app/desk/words.h"

#include <algorithm>
#include <cctype>

namespace backplate {
namespace {

std::string folded(const std::string& text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string::npos) return {};
    std::string out = text.substr(first, text.find_last_not_of(" \t") - first + 1);
    for (char& sign : out) sign = static_cast<char>(std::tolower(static_cast<unsigned char>(sign)));
    return out;
}

} // namespace

std::vector<std::string> allowed_words(const RuleBook& rules, const std::string& key) {
    std::vector<std::string> words;
    if (key == "boxes[].assemblies[].name")
        for (const AssemblyRow& row : rules.assemblies)
            if (std::ranges::find(words, row.assembly) == words.end())
                words.push_back(row.assembly);
    for (const WordRow& row : rules.words)
        if (row.key == key && !row.word.starts_with('/') &&
            std::ranges::find(words, row.word) == words.end())
            words.push_back(row.word);
    return words;
}

std::string known_word(const RuleBook& rules, const std::string& key, const std::string& typed) {
    if (key.empty()) return typed;
    const std::string wanted = folded(typed);
    for (const std::string& word : allowed_words(rules, key))
        if (folded(word) == wanted) return word;
    return typed;
}

} // namespace backplate
