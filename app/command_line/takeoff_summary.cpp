#include "app/command_line/takeoff_summary.h"
#include "app/command_line/counted.h"

#include <algorithm>

#include <fmt/format.h>

namespace backplate {
namespace {

std::size_t character_count(const std::string& utf8) {
    return static_cast<std::size_t>(std::ranges::count_if(
        utf8, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

/// Rows that share a sentence.
struct Group {
    std::string text;
    std::vector<int> rows;
};

void add_to(std::vector<Group>& groups, const std::string& text, int row) {
    auto group = std::ranges::find(groups, text, &Group::text);
    if (group == groups.end()) group = groups.insert(groups.end(), Group{text, {}});
    group->rows.push_back(row);
}

std::string counts_text(const std::map<std::string, int>& counts) {
    std::string text;
    for (const auto& [name, count] : counts)
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", name, count);
    return text.empty() ? "none" : text;
}

std::string proposal_text(const OpenQuestion& question) {
    if (!question.proposed_panel.empty())
        return "proposal: " + question.proposed_panel + ", as above";
    if (!question.proposal) return "please choose";
    return question.proposal->empty() ? "proposal: not counted"
                                      : "proposal: " + counts_text(*question.proposal);
}

std::string groups_text(const char* title, const std::vector<Group>& groups) {
    if (groups.empty()) return {};
    std::string text = fmt::format("\n{}\n", title);
    for (const Group& group : groups)
        text += fmt::format("  row{} {}: {}\n", group.rows.size() > 1 ? "s" : "",
                            row_numbers_text(group.rows), group.text);
    return text;
}

std::string remarks_text(const char* title, const std::vector<RowRemark>& remarks) {
    std::vector<Group> groups;
    for (const RowRemark& remark : remarks)
        add_to(groups, takeoff_reason(remark.reason), remark.row);
    return groups_text(title, groups);
}

std::string questions_text(const Takeoff& takeoff) {
    std::vector<Group> groups;
    for (const OpenQuestion& question : takeoff.ask)
        add_to(groups, takeoff_reason(question.reason) + "; " + proposal_text(question),
               question.row);
    return groups_text("Questions (not counted until answered)", groups);
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
    return text + fmt::format("{:<{}}  {:<10}{:>6}\n", "all", width, "", takeoff.points.size());
}

std::string mismatches_text(const Takeoff& takeoff) {
    std::string text;
    for (const TotalMismatch& mismatch : takeoff.total_mismatches)
        text += fmt::format("  row {}: states a total of {}, counted are {}\n", mismatch.row,
                            mismatch.stated, mismatch.counted);
    return text.empty() ? text : "\nTotals that differ\n" + text;
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

std::string takeoff_summary(const Takeoff& takeoff, const ListReading& reading) {
    const std::string delimiter = reading.delimiter == "\t" ? "tab" : reading.delimiter;
    std::string text = fmt::format(
        "{}: heading in row {}, {} counted ({}, delimiter {})\n\n", reading.file,
        *takeoff.header_row, counted(takeoff.rows_counted, "row"), reading.encoding, delimiter);
    text += panels_text(takeoff);
    text += fmt::format("\nSpare        {}\n", counts_text(takeoff.spare_rows));
    if (!takeoff.bus_rows.empty())
        text += fmt::format("Bus rows     {}\n", counts_text(takeoff.bus_rows));
    text += fmt::format("Not counted  {}\n", counts_text(takeoff.rows_not_counted));
    text += "Plain DI and DO are taken as 24 V DC.\n";
    text += questions_text(takeoff);
    text += remarks_text("Refused rows", takeoff.refuse_rows);
    text += remarks_text("Warnings", takeoff.warn);
    return text + mismatches_text(takeoff);
}

} // namespace backplate
