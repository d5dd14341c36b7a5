#include "app/desk/list_view.h"

#include <algorithm>
#include <map>
#include <set>

#include "app/desk/entry_check.h"
#include "pricing/takeoff/headings.h"
#include "reports/takeoff_words.h"

namespace backplate {
namespace {

using Is = RowOutcome::Is;

std::string counts_text(const SignalCounts& counts) {
    std::string text;
    for (const auto& [signal, count] : counts)
        text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + signal;
    return text;
}

std::string proposal_text(const OpenQuestion& question) {
    if (!question.proposed_panel.empty()) return question.proposed_panel + ", as above";
    if (!question.proposed_word.empty()) return question.proposed_word;
    if (!question.proposal) return {};
    return question.proposal->empty() ? "not counted" : "as " + counts_text(*question.proposal);
}

std::size_t widest_row(const ListSheet& sheet) {
    std::size_t widest = 1;
    for (const ListRow& row : sheet.rows) widest = std::max(widest, row.cells.size());
    return widest;
}

std::vector<std::string> titles_of(const ListSheet& sheet, const RuleBook& rules,
                                   const TableChoice& choice) {
    std::vector<std::string> titles;
    for (std::size_t column = 0; column < widest_row(sheet); ++column)
        titles.push_back(column_letters(column));
    const Lexicon lexicon(rules.spellings);
    const HeadingWords words(rules.headings, lexicon);
    for (const Heading& heading : find_headings(sheet, words, choice)) {
        for (std::size_t role = 0; role < role_words.size(); ++role)
            for (const std::size_t column : heading.columns[role])
                if (column < titles.size()) titles[column] += " · " + std::string(role_words[role]);
        for (const KindColumn& kind : heading.kinds)
            if (kind.column < titles.size()) titles[kind.column] += " · " + kind.kind;
    }
    return titles;
}

std::string mark_words(const std::string& mark) {
    return mark == "\t" ? "tabs" : mark == "," ? "commas" : mark == ";" ? "semicolons" : mark;
}

std::string rows_text(const std::vector<int>& rows) {
    if (rows.empty()) return "all";
    std::string text = std::to_string(rows.front());
    if (rows.size() > 1) text += " +" + std::to_string(rows.size() - 1);
    return text;
}

} // namespace

std::string column_letters(std::size_t column) {
    std::string letters(1, static_cast<char>('A' + column % 26));
    return column < 26 ? letters : column_letters(column / 26 - 1) + letters;
}

Preview preview_of(const TakenList& list, const ListSheet& sheet, const RuleBook& rules,
                   const TableChoice& choice) {
    Preview preview{titles_of(sheet, rules, choice), {}};
    std::map<int, const RowOutcome*> outcomes;
    for (const RowOutcome& row : list.takeoff.rows)
        if (row.sheet == sheet.name) outcomes[row.row] = &row;
    for (const ListRow& row : sheet.rows) {
        PreviewRow shown{row.number, std::nullopt, "", &row.cells};
        if (const auto found = outcomes.find(row.number); found != outcomes.end()) {
            shown.is = found->second->is;
            if (!found->second->reason.empty())
                shown.reason = takeoff_reason(found->second->reason);
        }
        preview.rows.push_back(std::move(shown));
    }
    return preview;
}

std::string outcome_sign(const std::optional<Is>& is) {
    if (!is) return "";
    switch (*is) {
    case Is::counted: return "✓ counted";
    case Is::not_counted: return "– not counted";
    case Is::asked: return "? asked";
    default: return "✗ refused";
    }
}

ListAnswer QuestionGroup::answer(ListAnswer::Does does) const {
    ListAnswer answer;
    answer.reason = reason;
    answer.type = type;
    answer.sheet = sheet;
    answer.does = does;
    return answer;
}

std::vector<QuestionGroup> question_groups(const Takeoff& takeoff) {
    std::vector<QuestionGroup> groups;
    for (const OpenQuestion& question : takeoff.ask) {
        const std::string proposal = proposal_text(question);
        auto found = std::ranges::find_if(groups, [&](const QuestionGroup& group) {
            return group.reason == question.reason && group.type == question.type &&
                   group.sheet == question.sheet;
        });
        if (found == groups.end()) {
            const std::string& about = question.type.empty() ? question.text : question.type;
            const std::string words =
                (about.empty() ? "" : about + ": ") + takeoff_reason(question.reason);
            groups.push_back({question.reason,
                              question.type,
                              question.sheet,
                              {},
                              words,
                              proposal,
                              question.last_time});
            found = groups.end() - 1;
        }
        if (found->proposal != proposal) found->proposal = "as proposed for each";
        if (question.row > 0) found->rows.push_back(question.row);
    }
    return groups;
}

TextRows question_rows(const std::vector<QuestionGroup>& groups) {
    TextRows rows;
    for (const QuestionGroup& group : groups)
        rows.push_back({rows_text(group.rows), group.words,
                        group.proposal.empty() ? "please choose" : group.proposal});
    return rows;
}

TextRows count_rows(const Takeoff& takeoff) {
    const PanelCounts now = takeoff.panels();
    const PanelCounts accepted = takeoff.panels_if_accepted();
    std::map<std::string, std::map<std::string, std::pair<int, int>>> both;
    for (const auto& [panel, counts] : now)
        for (const auto& [signal, count] : counts) both[panel][signal].first = count;
    for (const auto& [panel, counts] : accepted)
        for (const auto& [signal, count] : counts) both[panel][signal].second = count;
    TextRows rows;
    int sum = 0;
    int sum_accepted = 0;
    for (const auto& [panel, signals] : both)
        for (const auto& [signal, counts] : signals) {
            rows.push_back({panel.empty() ? "–" : panel, signal, std::to_string(counts.first),
                            std::to_string(counts.second)});
            sum += counts.first;
            sum_accepted += counts.second;
        }
    rows.push_back({"All", "", std::to_string(sum), std::to_string(sum_accepted)});
    return rows;
}

std::string outcome_words(const Takeoff& takeoff) {
    std::map<Is, int> sums;
    for (const RowOutcome& row : takeoff.rows) ++sums[row.is];
    std::string text = std::to_string(takeoff.rows.size()) +
                       " rows: " + std::to_string(sums[Is::counted]) + " counted, " +
                       std::to_string(sums[Is::not_counted]) + " not counted, " +
                       std::to_string(sums[Is::asked]) + " asked, " +
                       std::to_string(sums[Is::refused]) + " refused";
    for (const FileNote& note : takeoff.notes) text += " · " + note.text;
    if (!takeoff.total_mismatches.empty()) text += " · a total of the list differs";
    return text;
}

std::string reading_words(const TakenList& list) {
    std::string text = list.reading.file + ": ";
    text += list.reading.encoding.empty()
                ? list.reading.kind
                : list.reading.encoding + ", cells parted by " + mark_words(list.reading.delimiter);
    for (const ReadTable& table : list.takeoff.tables) {
        if (!table.sheet.empty()) text += " · " + table.sheet;
        if (table.header_rows.empty())
            text += ", no heading";
        else
            text += ", heading in row " + std::to_string(table.header_rows.front());
    }
    return text;
}

std::optional<SignalCounts> typed_counts(const std::string& text, const RuleBook& rules) {
    SignalCounts counts;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        std::string word = text.substr(at, end - at);
        at = end + 1;
        word.erase(0, std::min(word.find_first_not_of(' '), word.size()));
        const std::size_t digits = std::min(word.find_first_not_of("0123456789"), word.size());
        if (digits > 5) return std::nullopt;
        const int count = digits > 0 ? std::stoi(word.substr(0, digits)) : 1;
        word.erase(0, std::min(word.find_first_not_of(' ', digits), word.size()));
        while (!word.empty() && word.back() == ' ') word.pop_back();
        const NamedSignal named = named_signal(word, rules);
        if (named.signal.empty() || count < 1) return std::nullopt;
        counts[named.signal] += count;
    }
    return counts;
}

} // namespace backplate
