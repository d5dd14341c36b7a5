#include "app/desk/built_panel.h"

#include <algorithm>

#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/answer_text.h"
#include "app/desk/heading.h"

namespace backplate {
namespace {

std::string system_text(const Estimate& estimate, const std::string& box) {
    if (!estimate.buildable) return "Nothing in the price book builds this";
    for (const SystemResult& system : estimate.systems)
        if (std::find(system.boxes.begin(), system.boxes.end(), box) != system.boxes.end())
            return "Platform " + system.platform + ", " +
                   (system.proven_cheapest ? "cheapest with this price book and these rules"
                                           : "best found");
    return {};
}

} // namespace

BuiltPanel::BuiltPanel(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    const auto band = wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(8));
    const auto list = wxSizerFlags(1).Expand().Border(wxBOTTOM, FromDIP(8));
    rows->Add(make_heading(this, "Built"), wxSizerFlags().Expand());
    system_ = make_muted(this, "");
    rows->Add(system_, band);
    modules_ =
        new RowList(this, "modules", "Modules", {{"Pieces", 60, true}, {"Part", 110}, {"Module"}});
    rows->Add(modules_, list);
    points_ = new RowList(this, "channels", "Channels by signal",
                          {{"Signal"},
                           {"Used", 58, true},
                           {"Required", 76, true},
                           {"Fitted", 62, true},
                           {"Spare", 72, true}});
    rows->Add(points_, list);
    lines_ = new FigureLines(this, {{"supply", "24 V supply"},
                                    {"heat", "Heat"},
                                    {"enclosure", "Enclosure"},
                                    {"incoming", "Incoming"},
                                    {"wiring", "Wiring"}});
    rows->Add(lines_, wxSizerFlags().Expand());
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(10)));
    SetSizer(margin);
}

void BuiltPanel::show() {
    const Estimate* estimate = state_.estimate();
    if (estimate && state_.box < estimate->boxes.size())
        show_box(*estimate, estimate->boxes[state_.box]);
    else
        show_nothing();
    modules_->set_stale(state_.stale());
    points_->set_stale(state_.stale());
    lines_->set_stale(state_.stale());
}

void BuiltPanel::show_box(const Estimate& estimate, const BoxResult& box) {
    const FigureText text(state_.decimal_mark, estimate.request.inch);
    system_->SetLabelText(wxString::FromUTF8(system_text(estimate, box.name)));
    modules_->set_rows(module_rows(box, *state_.inputs->prices));
    points_->set_rows(point_rows(estimate, box.name, text));
    std::vector<FigureLine> lines(5, {"–", ""});
    if (estimate.buildable)
        lines = {{supply_figure(box, text), supply_detail(box, text)},
                 {heat_figure(box, text), heat_detail(box, text)},
                 {enclosure_figure(box, text), enclosure_detail(box, text)},
                 {incoming_figure(box, text), ""},
                 {wiring_figure(box), ""}};
    lines_->set_lines(lines);
}

void BuiltPanel::show_nothing() {
    system_->SetLabelText("");
    modules_->set_rows({});
    points_->set_rows({});
    lines_->set_lines(std::vector<FigureLine>(5, {"–", ""}));
}

} // namespace backplate
