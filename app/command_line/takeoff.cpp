#include <algorithm>
#include <array>
#include <filesystem>
#include <iostream>

#include <fmt/format.h>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/takeoff_request.h"
#include "app/command_line/takeoff_summary.h"
#include "app/inputs.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/takeoff/take_off.h"
#include "pricing/values/faults.h"
#include "reports/takeoff_json.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

/// Content decides, not the name: the first bytes of zipped workbooks (APPNOTE 4.3.7) and of the
/// older container (MS-CFB 2.2).
void refuse_workbook(const std::string& path, const std::string& bytes) {
    if (bytes.starts_with("PK\x03\x04"))
        throw BadInput(path + ": a workbook is not supported yet; expected .csv, .tsv or .txt "
                              "(save the sheet of the list as CSV)");
    if (bytes.starts_with("\xD0\xCF\x11\xE0"))
        throw BadInput(path + ": an old or protected workbook is not supported; expected .csv, "
                              ".tsv or .txt (save the sheet of the list as CSV)");
    const std::string extension = fs::path(path).extension().string();
    constexpr std::array<std::string_view, 4> workbooks{".xlsx", ".xls", ".ods", ".xlsm"};
    if (std::ranges::find(workbooks, extension) != workbooks.end())
        throw BadInput(path + ": is named as a workbook but holds none; expected a list named "
                              ".csv, .tsv or .txt");
}

bool holds_nothing(const Takeoff& takeoff) {
    constexpr std::array<std::string_view, 6> list_rows{"spare", "bus", "soft",
                                                        "noio",  "del", "zero"};
    return takeoff.points.empty() && !takeoff.has_questions() &&
           std::ranges::none_of(list_rows, [&](std::string_view why) {
               return takeoff.rows_not_counted.contains(std::string(why));
           });
}

Takeoff read_list(const std::string& path, const RuleBook& rules, ListReading& reading) {
    const std::string bytes = read_file(path);
    refuse_workbook(path, bytes);
    const ReadSheet list = read_delimited(path, bytes);
    reading = {fs::path(path).filename().string(), list.reading.encoding, list.reading.delimiter};
    Takeoff takeoff = take_off(list.sheet.rows, list.sheet.row_numbers, rules);
    if (!takeoff.header_row)
        throw BadInput(path + ": no heading row in the first 30 rows; expected one that names the "
                              "type or the electrics of a point and one more column (spellings: "
                              "rule table headings); lists with one column per signal "
                              "are not supported yet");
    if (holds_nothing(takeoff))
        throw BadInput(fmt::format("{}: nothing found below the heading in row {}; expected rows "
                                   "of points",
                                   path, *takeoff.header_row));
    return takeoff;
}

Node read_target(const std::string& path) {
    std::error_code fault;
    if (!fs::exists(path, fault) && !fault) return Node::make_null();
    ParsedJson parsed = parse_json(path, read_file(path));
    if (parsed.has_comments)
        throw BadInput(path + ": holds comments, which would be lost; give a new name");
    return std::move(parsed.root);
}

void write_into(const std::string& path, const Takeoff& takeoff, const ListReading& reading) {
    Node request = read_target(path);
    const WrittenPoints written = write_points(request, path, takeoff, reading.file);
    write_file(path, json_text(request));
    for (const auto& box : written.boxes)
        std::cerr << fmt::format("{}: {} {} has {}\n", path, box.is_new ? "new box" : "box",
                                 box.box, counted(box.points, "point"));
    if (!written.rows_without_panel.empty())
        std::cerr << fmt::format("{}: not written, because they name no panel: rows {}\n", path,
                                 row_numbers_text(written.rows_without_panel));
    const auto waiting = takeoff.ask.size() + takeoff.refuse_rows.size();
    if (waiting > 0)
        std::cerr << fmt::format("{}: {} not in it, waiting for an answer\n", path,
                                 counted(waiting, "row"));
}

} // namespace

int run_takeoff(const TakeoffArguments& arguments, const CommonArguments& common) {
    if (!arguments.sheet.empty()) throw BadInput("--sheet: not supported yet");
    if (!arguments.answers.empty()) throw BadInput("--answers: not supported yet");
    const Inputs inputs = load_inputs(common.library);
    ListReading reading;
    const Takeoff takeoff = read_list(arguments.list, *inputs.rules, reading);
    if (!arguments.into.empty()) write_into(arguments.into, takeoff, reading);
    std::cout << (common.json ? takeoff_json(takeoff, reading) : takeoff_summary(takeoff, reading));
    return done;
}

} // namespace backplate
