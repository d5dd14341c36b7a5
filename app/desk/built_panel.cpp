#include "app/desk/built_panel.h"

#include <algorithm>
#include <array>

#include <wx/menu.h>
#include <wx/notebook.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/answer_text.h"
#include "app/desk/heading.h"
#include "app/desk/lists_page.h"
#include "app/desk/panel_page.h"
#include "app/desk/replace_window.h"

namespace backplate {
namespace {

constexpr std::size_t line_count = 5;

/// Where the figures of each line stand below the box.
constexpr auto line_pointers = std::array<const char*, line_count>{
    "/supplies", "/heat", "/enclosures", "/incoming", "/terminals"};

std::string system_text(const Estimate& estimate, const std::string& box) {
    if (!estimate.buildable) return "Nothing in the price book builds this";
    for (const SystemResult& system : estimate.systems)
        if (std::find(system.boxes.begin(), system.boxes.end(), box) != system.boxes.end())
            return "Platform " + system.platform;
    return {};
}

std::string proof_text(const Estimate& estimate, const std::string& box) {
    if (!estimate.buildable) return "The findings say which limits bind";
    for (const SystemResult& system : estimate.systems)
        if (std::find(system.boxes.begin(), system.boxes.end(), box) != system.boxes.end())
            return system.proven_cheapest ? "Cheapest with this price book and these rules"
                                          : "Best found; a cheaper one was not ruled out";
    return {};
}

} // namespace

BuiltPanel::BuiltPanel(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    system_ = make_subheading(this, "");
    system_->SetWindowStyle(system_->GetWindowStyle() | wxST_ELLIPSIZE_END);
    name_control(*system_, "system", "What is built");
    rows->Add(system_, wxSizerFlags().Expand());
    proof_ = make_muted(this, "");
    name_control(*proof_, "proof", "Whether it is the cheapest");
    rows->Add(proof_, wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(4)));
    make_book(rows);
    make_lines(rows);
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(8)));
    SetSizer(margin);
}

RowList* BuiltPanel::add_list(const char* title, const char* name, const char* label,
                              std::vector<ListColumn> columns) {
    auto* page = new ListsPage(book_);
    auto* list = new RowList(page, name, label, std::move(columns), Sorting::rows);
    page->add(list, wxSizerFlags(1).Expand());
    book_->AddPage(page, title);
    return list;
}

void BuiltPanel::make_book(wxSizer* rows) {
    book_ = new wxNotebook(this, wxID_ANY);
    name_control(*book_, "built_pages", "What is built, page by page");
    make_panel_page();
    modules_ =
        add_list("Modules", "modules", "Modules", {{"Pieces", 60, true}, {"Part", 90}, {"Module"}});
    points_ = add_list("Channels", "channels", "Channels by signal",
                       {{"Signal"},
                        {"Used", 58, true},
                        {"Required", 76, true},
                        {"Fitted", 62, true},
                        {"Spare", 76, true}});
    bill_ = add_list("Bill", "bill", "Bill of material of the box",
                     {{"Pieces", 60, true}, {"Part", 84}, {"What"}, {"Net", 84, true}});
    rows->Add(book_, wxSizerFlags(1).Expand().Border(wxBOTTOM, FromDIP(6)));
    modules_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent&) { state_.why("/points"); });
    points_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent& event) {
        if (const Estimate* estimate = state_.estimate())
            state_.why(
                line_pointer("/points", estimate->points, points_->row_at(event.GetIndex())));
    });
    bill_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent& event) {
        if (const Estimate* estimate = state_.estimate())
            state_.why(line_pointer("/bill", estimate->bill, bill_->row_at(event.GetIndex())));
    });
}

/// Where the line stands in the estimate that a list of the box in view shows in this row.
template <class Lines>
std::string BuiltPanel::line_pointer(const char* pointer, const Lines& lines, long row) const {
    const std::string& box = state_.estimate()->boxes[state_.box].name;
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (lines[i].box == box && row-- == 0) return pointer + ("/" + std::to_string(i));
    return pointer;
}

void BuiltPanel::make_panel_page() {
    DrawingView::Calls calls;
    calls.chosen = [this](std::size_t device) { offer_choices(device); };
    calls.replace = [this](std::size_t device) {
        if (const std::string part = part_of(device); !part.empty()) replace(part);
    };
    calls.words = [this](const PlacedDevice& device) { return words_of(device); };
    panel_ = new PanelPage(book_, std::move(calls));
    book_->AddPage(panel_, "Panel");
}

const DrawingView& BuiltPanel::drawing() const { return panel_->drawing(); }

std::string BuiltPanel::words_of(const PlacedDevice& device) const {
    const Estimate& estimate = *state_.estimate();
    return device_words(estimate, estimate.boxes[state_.box].name, device, *state_.inputs,
                        FigureText(state_.decimal_mark, estimate.request.inch));
}

void BuiltPanel::make_lines(wxSizer* rows) {
    lines_ = new FigureLines(this,
                             {{"supply", "24 V supply"},
                              {"heat", "Heat"},
                              {"enclosure", "Enclosure"},
                              {"incoming", "Incoming"},
                              {"wiring", "Terminals"}},
                             [this](std::size_t line) { ask_why(line); });
    rows->Add(lines_, wxSizerFlags().Expand());
}

/// Empty for equipment by text, and where the figures are not the newest.
std::string BuiltPanel::part_of(std::size_t device) const {
    const Estimate* estimate = state_.estimate();
    if (!estimate || state_.stale() || state_.box >= estimate->boxes.size()) return {};
    const auto& devices = estimate->boxes[state_.box].layout.devices;
    return device < devices.size() ? devices[device].part : std::string();
}

/// What may be done with a device: replace it, keep it, leave it out, or see what it rests on.
void BuiltPanel::offer_choices(std::size_t device) {
    const std::string part = part_of(device);
    if (part.empty()) return;
    enum { other = 1, keep, exclude, bill };
    wxMenu menu;
    menu.Append(other, wxString::FromUTF8("&In place of " + part + " …\tR"));
    menu.Append(keep, wxString::FromUTF8("&Keep " + part));
    menu.Append(exclude, wxString::FromUTF8("With&out " + part));
    menu.AppendSeparator();
    menu.Append(bill, "&Why this price?");
    DrawingView& drawing = panel_->drawing();
    switch (drawing.GetPopupMenuSelectionFromUser(menu, drawing.below_marked())) {
    case other: return replace(part);
    case keep: return note_choice(part, true);
    case exclude: return note_choice(part, false);
    case bill: return state_.why("/bill");
    default: return;
    }
}

void BuiltPanel::replace(const std::string& part) {
    if (!replace_) replace_ = new ReplaceWindow(wxGetTopLevelParent(this), state_);
    replace_->ask(part);
}

void BuiltPanel::note_choice(const std::string& part, bool keep) {
    Node request = *state_.session.request();
    Node* list =
        make_at_pointer(request, state_.box_pointer() + "/choices/" + (keep ? "keep" : "exclude"));
    if (!list) return;
    if (!list->is(Node::Kind::list)) *list = Node::make_list();
    Node entry = Node::make_text(part);
    if (keep) {
        entry = Node::make_object();
        entry.member("part") = Node::make_text(part);
    }
    list->items.push_back(std::move(entry));
    state_.session.replace(std::move(request));
    state_.changed();
}

void BuiltPanel::ask_why(std::size_t line) const {
    const std::string box = "/boxes/" + std::to_string(state_.box);
    if (line < line_count) state_.why(box + line_pointers[line]);
}

void BuiltPanel::focus_first() {
    wxWindow* page = book_->GetCurrentPage();
    (page == panel_ ? &panel_->drawing() : page)->SetFocus();
}

void BuiltPanel::show() {
    const Estimate* estimate = state_.estimate();
    if (estimate && state_.box < estimate->boxes.size())
        show_box(*estimate, estimate->boxes[state_.box]);
    else
        show_nothing();
    for (RowList* list : {modules_, points_, bill_}) list->set_stale(state_.stale());
    lines_->set_stale(state_.stale());
    panel_->drawing().show(state_.good, state_.box);
    if (replace_) replace_->follow();
}

void BuiltPanel::show_box(const Estimate& estimate, const BoxResult& box) {
    const FigureText text(state_.decimal_mark, estimate.request.inch);
    system_->SetLabelText(wxString::FromUTF8(system_text(estimate, box.name)));
    proof_->SetLabelText(wxString::FromUTF8(proof_text(estimate, box.name)));
    modules_->set_rows(module_rows(box, *state_.inputs->prices));
    points_->set_rows(point_rows(estimate, box.name, text));
    bill_->set_rows(bill_rows(estimate, box.name, text));
    std::vector<FigureLine> lines(line_count, {"–", ""});
    if (estimate.buildable)
        lines = {{supply_figure(box, text), supply_detail(box, text)},
                 {heat_figure(box, text), heat_detail(box, text)},
                 {enclosure_size(box, text), enclosure_detail(box, text)},
                 {incoming_figure(box, text), ""},
                 {wiring_figure(box), ""}};
    lines_->set_lines(lines, box.name == shown_box_);
    shown_box_ = box.name;
}

void BuiltPanel::show_nothing() {
    shown_box_.clear();
    system_->SetLabelText("");
    proof_->SetLabelText("");
    for (RowList* list : {modules_, points_, bill_}) list->set_rows({});
    lines_->set_lines(std::vector<FigureLine>(line_count, {"–", ""}));
}

} // namespace backplate
