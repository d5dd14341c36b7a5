#include <algorithm>
#include <filesystem>
#include <iostream>

#include <fmt/format.h>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/takeoff_request.h"
#include "app/command_line/takeoff_summary.h"
#include "app/inputs.h"
#include "catalog/cells/list_file.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/takeoff/take_off.h"
#include "pricing/values/faults.h"
#include "reports/takeoff_json.h"
#include "reports/takeoff_words.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

std::string sheet_names(const ListFile& file) {
    std::string names;
    for (const ListSheet& sheet : file.sheets)
        names += (names.empty() ? "" : ", ") + (sheet.name.empty() ? "none (text)" : sheet.name);
    return names;
}

/// A list and what it gives.
struct TakenList {
    ListReading reading;
    Takeoff takeoff;
};

TakenList take_list(const std::string& path, const RuleBook& rules, const TakeoffWish& wish) {
    ListHints hints{wish.answers.encoding, wish.answers.delimiter, list_words(rules), wish.stop};
    const ListFile file = read_list_file(path, read_file(path), hints);
    if (!wish.sheet.empty() &&
        std::ranges::find(file.sheets, wish.sheet, &ListSheet::name) == file.sheets.end())
        throw BadInput(path + ": has no sheet " + wish.sheet + "; expected " + sheet_names(file));
    TakenList list{file.reading, take_off(file, rules, wish)};
    if (!list.takeoff.holds_rows())
        throw RefusedList("nothing_found", path + ": holds no row of points; expected a heading "
                                                  "and rows below it");
    return list;
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
    for (const OpenQuestion& question : takeoff.ask)
        if (question.row == 0 && question.sheet.empty())
            throw BadInput(path + ": not written, for the list itself is in question: " +
                           takeoff_reason(question.reason) + "; expected an answer (--answers)");
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
    if (!arguments.answers.empty()) throw BadInput("--answers: not supported yet");
    const Inputs inputs = load_inputs(common.library);
    TakeoffWish wish;
    wish.sheet = arguments.sheet;
    try {
        const TakenList list = take_list(arguments.list, *inputs.rules, wish);
        if (!arguments.into.empty()) write_into(arguments.into, list.takeoff, list.reading);
        std::cout << (common.json ? takeoff_json(list.takeoff, list.reading)
                                  : takeoff_summary(list.takeoff, list.reading));
    } catch (const RefusedList& refused) {
        if (common.json)
            std::cout << refused_takeoff_json(fs::path(arguments.list).filename().string(),
                                              refused.reason, refused.what());
        throw;
    }
    return done;
}

} // namespace backplate
