#include "app/documents.h"

#include <filesystem>

#include "pricing/job/enquiry.h"
#include "pricing/job/price_steps.h"
#include "pricing/values/faults.h"
#include "reports/drawing/drawing_file.h"
#include "reports/drawing/sheets.h"
#include "reports/wording.h"
#include "reports/workbook/enquiry.h"
#include "reports/workbook/workbook.h"

namespace backplate {

namespace fs = std::filesystem;

std::string stops_of(const Estimate& estimate, const RuleBook& rules) {
    if (!estimate.price) return "the job has no price";
    std::string text;
    for (const Finding& finding : estimate.findings)
        if (finding.severity == Severity::stop)
            text += (text.empty() ? "" : "\n") + finding_title(finding, rules) + ": " +
                    finding_text(finding, rules);
    return text;
}

std::string file_stem(const std::string& title) {
    std::string stem;
    for (const char sign : title)
        if (static_cast<unsigned char>(sign) >= ' ' &&
            std::string_view("/\\:*?\"<>|").find(sign) == std::string_view::npos)
            stem += sign;
    while (!stem.empty() && (stem.front() == '.' || stem.front() == ' ')) stem.erase(0, 1);
    constexpr std::size_t most_bytes = 120;
    if (stem.size() > most_bytes) {
        stem.resize(most_bytes);
        while (!stem.empty() && (static_cast<unsigned char>(stem.back()) & 0x80) != 0)
            stem.pop_back(); // no half of a character
    }
    return stem.empty() ? "untitled job" : stem;
}

std::string free_path(const std::string& folder, const std::string& stem,
                      const std::string& extension) {
    for (int number = 1;; ++number) {
        const std::string name =
            stem + (number == 1 ? "" : " " + std::to_string(number)) + extension;
        const fs::path path = fs::path(folder) / name;
        std::error_code none;
        if (fs::symlink_status(path, none).type() == fs::file_type::not_found) return path.string();
    }
}

std::vector<WrittenDocument> write_documents(const Estimate& estimate, const Inputs& inputs,
                                             const DocumentWish& wish, Work& work) {
    std::error_code none;
    if (!fs::is_directory(wish.folder, none))
        throw BadInput(wish.folder + ": is no folder; expected one to write into");
    const RuleBook& rules = *inputs.rules;
    const std::string stem = file_stem(estimate.request.title);
    std::vector<WrittenDocument> written;
    const bool for_client = wish.client || wish.drawing;
    if (for_client && (!estimate.price || (!wish.draft && !stops_of(estimate, rules).empty())))
        throw BadInput("nothing for the client is written, for " + stops_of(estimate, rules));
    if (wish.workbook) {
        const FoundSteps steps = asked_price_steps(estimate, *inputs.prices, rules, work);
        const std::string path = free_path(wish.folder, stem + " workbook", ".xlsx");
        write_workbook(estimate, rules, path, steps);
        written.push_back({"workbook", path});
    }
    if (wish.client) {
        const std::string path = free_path(wish.folder, stem + " offer", ".xlsx");
        write_client_workbook(estimate, rules, path, wish.draft);
        written.push_back({"client edition", path});
    }
    if (wish.enquiry) {
        const std::string path = free_path(wish.folder, stem + " enquiry", ".xlsx");
        write_enquiry(estimate, enquiry_lines(estimate, *inputs.prices, rules), path);
        written.push_back({"enquiry sheet", path});
    }
    if (wish.drawing) {
        const std::string path = free_path(wish.folder, stem + " drawing", ".pdf");
        write_drawing(drawing_sheets(estimate, wish.draft), estimate.request.title,
                      estimate.request.date, path);
        written.push_back({"drawing", path});
    }
    return written;
}

} // namespace backplate
