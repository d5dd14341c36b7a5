#include "app/command_line/takeoff_summary.h"
#include "app/command_line/counted.h"
#include "pricing/takeoff/tally.h"
#include "reports/takeoff_words.h"

#include <algorithm>

#include <fmt/format.h>

namespace backplate {
namespace {

std::size_t character_count(const std::string& utf8) {
    return static_cast<std::size_t>(std::ranges::count_if(
        utf8, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

/// Rows that share a sentence; of workbooks with their sheet.
struct Group {
    std::string text, sheet;
    std::vector<int> rows;
};

/// Groups in the order in which they came up.
class Groups {
public:
    void add(const std::string& text, const std::string& sheet, int row) {
        const auto [found, is_new] = places_.try_emplace({text, sheet}, groups_.size());
        if (is_new) groups_.push_back({text, sheet, {}});
        if (row > 0) groups_[found->second].rows.push_back(row);
    }
    const std::vector<Group>& all() const { return groups_; }

private:
    std::vector<Group> groups_;
    std::map<std::pair<std::string, std::string>, std::size_t> places_;
};

std::string counts_text(const std::map<std::string, int>& counts) {
    std::string text;
    for (const auto& [name, count] : counts)
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", name, count);
    return text.empty() ? "none" : text;
}

std::string proposal_text(const OpenQuestion& question) {
    if (!question.proposed_panel.empty())
        return "proposal: " + question.proposed_panel + ", as above";
    if (!question.proposed_word.empty()) return "proposal: " + question.proposed_word;
    if (!question.proposal) return "please choose";
    return question.proposal->empty() ? "proposal: not counted"
                                      : "proposal: " + counts_text(*question.proposal);
}

std::string place_text(const Group& group) {
    std::string text = group.sheet.empty() ? "" : "sheet " + group.sheet;
    if (group.rows.empty()) return text.empty() ? "the file" : text;
    text += std::string(text.empty() ? "" : ", ") + "row" + (group.rows.size() > 1 ? "s " : " ");
    return text + row_numbers_text(group.rows);
}

std::string groups_text(const std::string& title, const std::vector<Group>& groups) {
    if (groups.empty()) return {};
    std::string text = fmt::format("\n{}\n", title);
    for (const Group& group : groups)
        text += fmt::format("  {}: {}\n", place_text(group), group.text);
    return text;
}

std::string remarks_text(const char* title, const std::vector<RowRemark>& remarks) {
    Groups groups;
    for (const RowRemark& remark : remarks)
        groups.add(takeoff_reason(remark.reason), remark.sheet, remark.row);
    return groups_text(title, groups.all());
}

std::string questions_text(const Takeoff& takeoff) {
    Groups groups;
    for (const OpenQuestion& question : takeoff.ask) {
        std::string text = takeoff_reason(question.reason) + " (" + question.reason + ")";
        if (question.row > 0 && !question.type.empty())
            text += ": " + question.type;
        else if (!question.text.empty())
            text += ": " + question.text;
        text += "; " + proposal_text(question);
        if (!question.last_time.empty()) text += "; last time: " + question.last_time;
        groups.add(text, question.sheet, question.row);
    }
    return groups_text("Questions (not counted until answered)", groups.all());
}

std::string not_counted_text(const Takeoff& takeoff) {
    Groups groups;
    for (const RowOutcome& row : takeoff.rows)
        if (row.is == RowOutcome::Is::not_counted)
            groups.add(takeoff_reason(row.reason), row.sheet, row.row);
    return groups_text("Not counted", groups.all());
}

/// The four outcomes of all rows and their sum.
std::string outcomes_text(const Takeoff& takeoff) {
    const auto of = [&](RowOutcome::Is is) {
        return std::ranges::count(takeoff.rows, is, &RowOutcome::is);
    };
    using Is = RowOutcome::Is;
    return fmt::format("\n{}: {} counted, {} not counted, {} asked, {} refused\n",
                       counted(takeoff.rows.size(), "row"), of(Is::counted), of(Is::not_counted),
                       of(Is::asked), of(Is::refused));
}

std::string panels_text(const Takeoff& takeoff) {
    const PanelCounts panels = takeoff.panels();
    std::size_t width = 5;
    for (const auto& [panel, counts] : panels) width = std::max(width, character_count(panel));
    std::string text = fmt::format("{:<{}}  {:<10}{:>6}\n", "Panel", width, "Signal", "Points");
    for (const auto& [panel, counts] : panels)
        for (const auto& [signal, count] : counts)
            text += fmt::format("{:<{}}  {:<10}{:>6}\n", panel.empty() ? "-" : panel, width, signal,
                                count);
    return text + fmt::format("{:<{}}  {:<10}{:>6}\n", "all", width, "", sum_of(takeoff.counts()));
}

std::string total_text(const std::map<std::string, int>& total) {
    const bool of_all = total.size() == 1 && total.begin()->first.empty();
    return of_all ? std::to_string(total.begin()->second) : counts_text(total);
}

std::string mismatches_text(const Takeoff& takeoff) {
    Groups groups;
    for (const TotalMismatch& mismatch : takeoff.total_mismatches) {
        const std::string of = mismatch.row == 0 ? mismatch.panel + ": " : "";
        groups.add(fmt::format("{}states {}, counted are {}", of, total_text(mismatch.stated),
                               total_text(mismatch.counted)),
                   mismatch.sheet, mismatch.row);
    }
    return groups_text("Totals that differ", groups.all());
}

std::string notes_text(const Takeoff& takeoff) {
    std::vector<Group> groups;
    for (const FileNote& note : takeoff.notes) groups.push_back({note.text, note.sheet, note.rows});
    return groups_text("About the file", groups);
}

std::string assemblies_text(const std::vector<ProposedAssembly>& assemblies) {
    std::string text;
    for (const ProposedAssembly& each : assemblies) {
        text += fmt::format("  {}{} x {}:", each.panel.empty() ? "" : each.panel + ": ",
                            each.tags.size(), fmt::join(each.assemblies, " or "));
        for (const std::string& tag : each.tags) text += " " + tag;
        text += '\n';
    }
    return text.empty() ? text : "\nPerhaps assemblies (proposed, not applied)\n" + text;
}

std::string rows_text(const std::vector<int>& rows) {
    return rows.empty() ? "no heading"
                        : fmt::format("heading in row{} {}", rows.size() > 1 ? "s" : "",
                                      row_numbers_text(rows));
}

std::string how_read_text(const Takeoff& takeoff, const ListReading& reading) {
    std::string text = reading.file + ": ";
    if (reading.encoding.empty())
        text += reading.kind;
    else
        text += fmt::format("{}, delimiter {}", reading.encoding,
                            reading.delimiter == "\t" ? "tab" : reading.delimiter);
    for (const ReadTable& table : takeoff.tables)
        text += fmt::format("{}{}", table.sheet.empty() ? ", " : "\n  " + table.sheet + ": ",
                            rows_text(table.header_rows));
    for (const std::string& sheet : takeoff.ignored_sheets)
        if (!sheet.empty()) text += fmt::format("\n  {}: no list, ignored", sheet);
    return text + "\n\n";
}

} // namespace

std::string row_numbers_text(const std::vector<int>& rows) {
    std::string text;
    for (std::size_t i = 0; i < rows.size();) {
        std::size_t end = i + 1;
        while (end < rows.size() && rows[end] == rows[end - 1] + 1) ++end;
        if (end - i < 3) end = i + 1;
        text += (text.empty() ? "" : ", ") + fmt::to_string(rows[i]);
        if (end - i >= 3) text += " to " + fmt::to_string(rows[end - 1]);
        i = end;
    }
    return text;
}

std::string takeoff_summary(const Takeoff& takeoff, const ListReading& reading,
                            const std::vector<ProposedAssembly>& assemblies) {
    std::string text = how_read_text(takeoff, reading);
    text += panels_text(takeoff);
    text += fmt::format("\nSpare        {}\n", counts_text(takeoff.spare_rows));
    if (!takeoff.bus_rows.empty())
        text += fmt::format("Bus rows     {}\n", counts_text(takeoff.bus_rows));
    text += "Plain DI and DO are taken as 24 V DC.\n";
    text += outcomes_text(takeoff);
    text += not_counted_text(takeoff);
    text += questions_text(takeoff);
    text += remarks_text("Refused rows", takeoff.refuse_rows);
    text += remarks_text("Warnings", takeoff.warn);
    text += mismatches_text(takeoff) + notes_text(takeoff) + assemblies_text(assemblies);
    if (!takeoff.ask.empty())
        text += "\nAnswers are a file for --answers; `backplate takeoff --example` prints one.\n";
    return text;
}

} // namespace backplate
