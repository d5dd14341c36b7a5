#include <algorithm>
#include <filesystem>
#include <iostream>

#include <fmt/format.h>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/takeoff_changes.h"
#include "app/command_line/takeoff_summary.h"
#include "app/inputs.h"
#include "app/list_points.h"
#include "app/list_take_off.h"
#include "catalog/cells/list_file.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/list_answers_json.h"
#include "catalog/exchange/request_json.h"
#include "pricing/values/faults.h"
#include "reports/takeoff_json.h"
#include "reports/takeoff_words.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

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

/// What a file of answers may hold.
constexpr const char* example_answers =
    R"({ "format": "backplate-takeoff-answers/1",
  // "encoding": "windows-1250", "delimiter": ";",   // of text, where they were found out wrongly
  // "heading_row": 4,                               // 0: the table has no heading
  "columns": { "Pos": "tag", "column C": "type", "Loop": "ignore" },
  // roles: tag, description, type, electrics, panel, remarks, address, quantity, device, ignore
  "answers": [
    // For all rows of a reason; "any" stands for every reason.
    { "reason": "ai_range_missing", "answer": "accept" },      // the proposal
    { "reason": "struck_out", "answer": "leave_out" },         // not counted
    { "reason": "hidden_sheet", "sheet": "old", "answer": "count" },
    // For all rows with a type text: what one piece is.
    { "reason": "type_unknown", "type": "SWITCH", "answer": { "DI": 1 } },
    // For one row: what the whole row is.
    { "reason": "io_unspecific", "sheet": "Devices", "row": 11, "answer": { "DI": 2, "DO": 1 } },
    { "reason": "fill_down_panel", "answer": { "panel": "CP1" } } ] }
)";

TakeoffWish wish_of(const TakeoffArguments& arguments, const std::string& library,
                    const RuleBook& rules) {
    TakeoffWish wish;
    wish.sheet = arguments.sheet;
    if (!arguments.answers.empty())
        wish.answers = read_list_answers(arguments.answers, read_file(arguments.answers), rules);
    if (!arguments.recall) return wish;
    ListAnswers remembered = remembered_for(library, arguments.client, rules);
    if (wish.answers.table.columns.empty())
        wish.answers.table.columns = std::move(remembered.table.columns);
    // Answers of the file come first where both fit equally well.
    for (ListAnswer& answer : remembered.answers) wish.answers.answers.push_back(std::move(answer));
    return wish;
}

void take_one(const TakeoffArguments& arguments, const CommonArguments& common,
              const RuleBook& rules) {
    const TakeoffWish wish = wish_of(arguments, common.library, rules);
    TakenList list = take_list(arguments.list, rules, wish);
    offer_answers(list.takeoff, remembered_for(common.library, arguments.client, rules));
    if (!arguments.into.empty()) write_into(arguments.into, list.takeoff, list.reading);
    std::cout << (common.json ? takeoff_json(list.takeoff, list.reading, list.assemblies)
                              : takeoff_summary(list.takeoff, list.reading, list.assemblies));
    if (!arguments.remember) return;
    if (arguments.answers.empty())
        throw BadInput("--remember: no answers were given; expected --answers FILE");
    const int added = remember_for(
        common.library, arguments.client,
        read_list_answers(arguments.answers, read_file(arguments.answers), rules), rules);
    std::cerr << fmt::format("Remembered for {}; {} added\n", arguments.client,
                             counted(added, "rule row"));
}

} // namespace

int run_takeoff(const TakeoffArguments& arguments, const CommonArguments& common) {
    if (arguments.example) {
        std::cout << example_answers;
        return done;
    }
    const Inputs inputs = load_inputs(common.library);
    try {
        if (!arguments.against.empty())
            return print_list_changes(arguments, common, inputs,
                                      wish_of(arguments, common.library, *inputs.rules));
        take_one(arguments, common, *inputs.rules);
    } catch (const RefusedList& refused) {
        if (common.json)
            std::cout << refused_takeoff_json(fs::path(arguments.list).filename().string(),
                                              refused.reason, refused.what());
        throw;
    }
    return done;
}

} // namespace backplate
