#include "app/desk/state_dump.h"

#include <unistd.h>

#include <cmath>

#include <nlohmann/json.hpp>
#include <wx/grid.h>

#include "app/desk/answer_text.h"
#include "app/desk/built_panel.h"
#include "app/desk/drawing_view.h"
#include "app/desk/handler_clock.h"
#include "app/desk/priced_panel.h"
#include "app/desk/replace_window.h"
#include "app/desk/takeoff_page.h"
#include "catalog/cells/table.h"

namespace backplate {
namespace {

nlohmann::json cells_of(wxGrid& grid) {
    auto rows = nlohmann::json::array();
    for (int row = 0; row < grid.GetNumberRows(); ++row) {
        auto cells = nlohmann::json::array();
        for (int column = 0; column < grid.GetNumberCols(); ++column)
            cells.push_back(grid.GetCellValue(row, column).utf8_string());
        rows.push_back(std::move(cells));
    }
    return rows;
}

nlohmann::json doubts_json(const DeskState& desk) {
    const Doubts doubts = doubts_of(desk);
    auto rows = nlohmann::json::array();
    for (std::size_t i = 0; i < doubts.rows.size(); ++i)
        rows.push_back({{"where", doubts.pointers[i]}, {"cells", doubts.rows[i]}});
    return rows;
}

nlohmann::json box_of(const BoxResult& box, bool inch) {
    const FigureText text('.', inch);
    auto modules = nlohmann::json::array();
    for (const ModuleResult& module : box.modules)
        modules.push_back({{"part", module.part}, {"quantity", module.quantity}});
    return {{"modules", std::move(modules)},
            {"supply", supply_figure(box, text)},
            {"heat", heat_figure(box, text)},
            {"enclosure", enclosure_figure(box, text)}};
}

nlohmann::json takeoff_json(const ShownState& shown) {
    return {{"open", shown.taking_off},
            {"reading", shown.takeoff.reading()},
            {"words", shown.takeoff.words()},
            {"questions", shown.takeoff.questions()},
            {"fault", shown.takeoff.refused()}};
}

nlohmann::json built_json(const BuiltPanel& built) {
    const ReplaceWindow* replacing = built.replacing();
    const bool open = replacing && replacing->IsShown();
    return {{"marked", built.drawing().words()},
            {"door", built.drawing().door()},
            {"replacing", open ? replacing->part() : ""},
            {"replacements", open ? replacing->list().rows() : TextRows{}},
            {"looking", open && replacing->looking()}};
}

/// Nothing more comes for what is asked now: of a job that nothing builds no steps.
bool settled(const DeskState& desk) {
    if (!desk.answer || desk.answer->generation != desk.asked) return false;
    const Answer& answer = *desk.answer;
    if (!answer.estimate || !answer.further_error.empty() || desk.stopped == desk.asked)
        return true;
    return answer.estimate->buildable ? answer.steps != nullptr
                                      : answer.alternatives && !answer.looking;
}

nlohmann::json shown_json(const ShownState& shown) {
    const DeskState& desk = shown.desk;
    return {{"title", shown.title},
            {"price", shown.priced.price_text()},
            {"flashes", shown.priced.flashes()},
            {"price_notes", shown.priced.notes_text()},
            {"alternatives", shown.priced.alternatives().rows()},
            {"alternatives_shown", shown.priced.alternatives().shown_rows()},
            {"findings_shown", shown.findings.shown_rows()},
            {"looking", desk.good && desk.good->looking},
            {"steps", shown.priced.step_words()},
            {"settled", settled(desk)},
            {"refused", desk.refused},
            {"unconfirmed", desk.unconfirmed},
            {"send", shown.send},
            {"page", shown.page},
            {"kept", shown.kept},
            {"slowest_ms", std::lround(slowest_handler().milliseconds)},
            {"slowest", wxString(slowest_handler().event).utf8_string()},
            {"why", shown.why},
            {"said", shown.said},
            {"pid", getpid()},
            {"box_in_view", desk.box},
            {"focus", shown.focus},
            {"asserts", shown.asserts}};
}

} // namespace

void dump_state(const std::string& path, const ShownState& shown) {
    const DeskState& desk = shown.desk;
    const Estimate* estimate = desk.estimate();
    nlohmann::json state{
        {"asked", desk.asked},
        {"answered", desk.answer ? desk.answer->generation : 0},
        {"generation", desk.good ? desk.good->generation : 0},
        {"stale", desk.stale()},
        {"dirty", desk.session.dirty()},
        {"file", desk.session.file()},
        {"faults", desk.answer ? desk.answer->faults.size() : 0},
        {"error", desk.answer ? desk.answer->error : ""},
        {"doubts", doubts_json(desk)},
        {"cells", cells_of(shown.points)},
        {"cursor", {shown.points.GetGridCursorRow(), shown.points.GetGridCursorCol()}}};
    state.update(shown_json(shown));
    state["takeoff"] = takeoff_json(shown);
    state["built"] = built_json(shown.built);
    state["documents"] = nlohmann::json::array();
    for (const WrittenDocument& each : shown.documents) state["documents"].push_back(each.path);
    if (estimate) {
        state["hours"] = labour_hours(*estimate).text();
        state["findings"] = estimate->findings.size();
        if (desk.box < estimate->boxes.size())
            state["box"] = box_of(estimate->boxes[desk.box], estimate->request.inch);
    }
    static std::string written; // the window has one dump
    const std::string text = state.dump(1) + "\n";
    if (text == written) return;
    write_file(path, text);
    written = text;
}

} // namespace backplate
