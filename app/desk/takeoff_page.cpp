#include "app/desk/takeoff_page.h"

#include <algorithm>

#include <wx/button.h>
#include <wx/choice.h>
#include <wx/grid.h>
#include <wx/menu.h>
#include <wx/settings.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"
#include "app/desk/preview_table.h"
#include "app/desk/wrapped_text.h"
#include "app/list_points.h"
#include "pricing/takeoff/headings.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

wxButton* make_key(wxWindow* parent, const char* label, const char* name, const char* tip,
                   const std::function<void()>& act) {
    auto* key = new wxButton(parent, wxID_ANY, label);
    name_control(*key, name, label);
    key->SetToolTip(tip);
    key->Bind(wxEVT_BUTTON, [act](wxCommandEvent&) { act(); });
    return key;
}

/// A cell that its column cuts is said whole under the pointer.
void explain_cells(wxGrid* grid) {
    grid->GetGridWindow()->Bind(wxEVT_MOTION, [grid](wxMouseEvent& event) {
        event.Skip();
        const wxPoint at = grid->CalcUnscrolledPosition(event.GetPosition());
        const int row = grid->YToRow(at.y), column = grid->XToCol(at.x);
        wxString tip = row < 0 || column < 0 ? wxString() : grid->GetCellValue(row, column);
        if (column >= 0 && grid->GetTextExtent(tip).x < grid->GetColSize(column)) tip.clear();
        if (grid->GetGridWindow()->GetToolTipText() != tip) grid->GetGridWindow()->SetToolTip(tip);
    });
}

wxGrid* make_preview_grid(wxWindow* parent, PreviewTable* table) {
    auto* grid = new wxGrid(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxBORDER_THEME);
    grid->SetTable(table, true);
    grid->EnableEditing(false);
    grid->DisableDragRowSize();
    grid->SetRowLabelSize(parent->FromDIP(44));
    grid->SetColLabelSize(parent->FromDIP(26));
    grid->SetDefaultRowSize(parent->FromDIP(22));
    grid->SetDefaultColSize(parent->FromDIP(110));
    grid->SetLabelFont(grid->GetFont());
    grid->SetTabBehaviour(wxGrid::Tab_Leave);
    grid->SetGridLineColour(wxSystemSettings::GetColour(wxSYS_COLOUR_BTNSHADOW));
    grid->SetDefaultCellBackgroundColour(wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOX));
    grid->SetDefaultCellTextColour(wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOXTEXT));
    grid->SetMinSize(parent->FromDIP(wxSize(300, 200)));
    name_control(*grid, "list_rows", "Rows of the list");
    explain_cells(grid);
    return grid;
}

/// The bid's only box bears no points and the list names panels: it becomes the first of them.
void name_empty_box(Node& request, const Takeoff& takeoff) {
    Node* boxes = request.find("boxes");
    const PanelCounts panels = takeoff.panels();
    if (!boxes || boxes->items.size() != 1 || panels.empty() || takeoff.points.empty()) return;
    const Node* points = boxes->items[0].find("points");
    const std::string& first = takeoff.points.front().panel;
    if ((!points || points->items.empty()) && !first.empty())
        boxes->items[0].member("name") = Node::make_text(first);
}

} // namespace

TakeoffPage::TakeoffPage(wxWindow* parent, DeskState& state, std::function<void()> leave)
    : wxPanel(parent), state_(state), leave_(std::move(leave)) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    make_head(rows);
    make_lists(rows);
    rows->Add(make_keys(), wxSizerFlags().Expand().Border(wxTOP, FromDIP(6)));
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(10)));
    SetSizer(margin);
    Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
        const int key = event.GetKeyCode();
        if (key == WXK_ESCAPE) return leave_();
        if (event.CmdDown() && key == WXK_RETURN) return take_into_bid();
        event.Skip();
    });
}

void TakeoffPage::make_head(wxSizer* rows) {
    auto* row = new wxBoxSizer(wxHORIZONTAL);
    heading_ = make_heading(this, "Take-off");
    name_control(*heading_, "list_heading", "The list");
    row->Add(heading_, wxSizerFlags(1).CenterVertical());
    sheets_ = new wxChoice(this, wxID_ANY);
    name_control(*sheets_, "list_sheet", "Sheet in view");
    sheets_->Bind(wxEVT_CHOICE, [this](wxCommandEvent&) { show_sheet(); });
    row->Add(sheets_, wxSizerFlags().CenterVertical());
    rows->Add(row, wxSizerFlags().Expand());
    outcome_ =
        new wxStaticText(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize, wxST_ELLIPSIZE_END);
    name_control(*outcome_, "list_outcome", "What became of the rows");
    rows->Add(outcome_, wxSizerFlags().Expand().Border(wxTOP | wxBOTTOM, FromDIP(4)));
}

void TakeoffPage::make_lists(wxSizer* rows) {
    auto* columns = new wxBoxSizer(wxHORIZONTAL);
    table_ = new PreviewTable;
    rows_ = make_preview_grid(this, table_);
    rows_->Bind(wxEVT_GRID_LABEL_RIGHT_CLICK, [this](wxGridEvent& event) {
        if (event.GetCol() >= 2) choose_role(event.GetCol() - 2);
    });
    columns->Add(rows_, wxSizerFlags(3).Expand().Border(wxRIGHT, FromDIP(8)));
    auto* side = new wxBoxSizer(wxVERTICAL);
    questions_ = new RowList(this, "list_questions", "Open questions",
                             {{"Rows", 70}, {"Question"}, {"Proposal", 120}});
    questions_->Bind(wxEVT_LIST_ITEM_SELECTED,
                     [this](wxListEvent& event) { go_to_question(event.GetIndex()); });
    questions_->Bind(wxEVT_LIST_ITEM_ACTIVATED,
                     [this](wxListEvent&) { answer_chosen(ListAnswer::Does::accept); });
    side->Add(questions_, wxSizerFlags(3).Expand());
    whole_ = new WrappedText(this, "list_question", "The question chosen");
    side->Add(whole_, wxSizerFlags().Border(wxTOP, FromDIP(4)));
    side->Add(make_answers(), wxSizerFlags().Expand().Border(wxTOP | wxBOTTOM, FromDIP(6)));
    counts_ = new RowList(this, "list_counts", "Counts by panel and signal",
                          {{"Panel"}, {"Signal", 90}, {"Now", 56, true}, {"Accepted", 80, true}});
    side->Add(counts_, wxSizerFlags(2).Expand());
    columns->Add(side, wxSizerFlags(2).Expand());
    rows->Add(columns, wxSizerFlags(1).Expand());
}

wxSizer* TakeoffPage::make_answers() {
    using Does = ListAnswer::Does;
    auto* keys = new wxBoxSizer(wxHORIZONTAL);
    const auto gap = wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(6));
    keys->Add(make_key(this, "Accept", "accept", "Take the proposal (Return on the question)",
                       [this] { answer_chosen(Does::accept); }),
              gap);
    keys->Add(make_key(this, "Count", "count", "Count the rows as they stand",
                       [this] { answer_chosen(Does::count); }),
              gap);
    keys->Add(make_key(this, "Leave out", "leave_out", "Do not count the rows",
                       [this] { answer_chosen(Does::leave_out); }),
              gap);
    typed_ =
        new wxTextCtrl(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize, wxTE_PROCESS_ENTER);
    typed_->SetHint("or as: DI, or 2 DI, 1 DO");
    typed_->SetToolTip("What one piece is, then Return");
    name_control(*typed_, "count_as", "Count as");
    typed_->Bind(wxEVT_TEXT_ENTER, [this](wxCommandEvent&) { answer_typed(); });
    keys->Add(typed_, wxSizerFlags(1).CenterVertical());
    return keys;
}

wxSizer* TakeoffPage::make_keys() {
    auto* keys = new wxBoxSizer(wxHORIZONTAL);
    const auto gap = wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(6));
    advice_ = make_muted(this, "");
    name_control(*advice_, "list_advice", "Advice");
    keys->Add(advice_, wxSizerFlags(1).CenterVertical());
    keys->Add(make_key(this, "Accept all proposals", "accept_all",
                       "Take every proposal (Ctrl+Shift+A)", [this] { accept_all(); }),
              gap);
    keys->Add(make_key(this, "Back", "list_back", "Back to the bid (Escape)", leave_), gap);
    keys->Add(make_key(this, "Take into the bid", "take_in",
                       "Put the counted points into the bid; undo takes them back (Ctrl+Return)",
                       [this] { take_into_bid(); }));
    return keys;
}

std::string TakeoffPage::words() const { return outcome_->GetLabelText().utf8_string(); }

void TakeoffPage::open(const std::string& path) {
    path_ = path;
    answers_ = {};
    table_->show({}); // its rows point into the list
    questions_->set_rows({});
    counts_->set_rows({});
    outcome_->SetLabelText("");
    list_.reset();
    groups_.clear();
    read();
    questions_->SetFocus();
}

/// On a thread of its own; the newest reading wins.
void TakeoffPage::read() {
    reading_ = true;
    advice_->SetLabelText("Reading, one moment");
    thread_ = std::jthread([this, number = ++asked_, path = path_, answers = answers_,
                            inputs = state_.inputs](const std::stop_token& stop) {
        std::shared_ptr<const TakenList> list;
        std::string fault;
        try {
            TakeoffWish wish;
            wish.answers = answers;
            wish.stop = stop;
            list = std::make_shared<const TakenList>(take_list(path, *inputs->rules, wish));
        } catch (const Stopped&) {
            return;
        } catch (const std::exception& failure) {
            fault = failure.what();
        }
        CallAfter([this, number, list, fault] { receive(number, list, fault); });
    });
}

void TakeoffPage::receive(std::uint64_t number, std::shared_ptr<const TakenList> list,
                          std::string fault) {
    if (number != asked_) return;
    reading_ = false;
    fault_ = std::move(fault);
    if (list) list_ = std::move(list);
    show();
    state_.look();
}

void TakeoffPage::show() {
    advice_->SetLabelText(wxString::FromUTF8(
        fault_.empty() ? "A right click on a heading says what its column holds" : "✗ " + fault_));
    if (!list_) {
        heading_->SetLabelText(wxString::FromUTF8("Take-off of " + path_));
        return;
    }
    heading_->SetLabelText(wxString::FromUTF8(reading_words(*list_)));
    const wxString outcome = wxString::FromUTF8(outcome_words(list_->takeoff));
    outcome_->SetLabelText(outcome);
    outcome_->SetToolTip(outcome);
    groups_ = question_groups(list_->takeoff);
    questions_->set_rows(question_rows(groups_));
    if (groups_.empty()) whole_->show("");
    if (!groups_.empty() && questions_->chosen() < 0) questions_->choose(0);
    counts_->set_rows(count_rows(list_->takeoff));
    wxArrayString names;
    for (const ListSheet& sheet : list_->sheets)
        names.Add(sheet.name.empty() ? wxString("Text") : wxString::FromUTF8(sheet.name));
    if (names != sheets_->GetStrings()) {
        sheets_->Set(names);
        sheets_->SetSelection(0);
        for (std::size_t i = 0; i < list_->sheets.size(); ++i)
            if (!list_->takeoff.tables.empty() &&
                list_->sheets[i].name == list_->takeoff.tables.front().sheet)
                sheets_->SetSelection(static_cast<int>(i));
    }
    sheets_->Show(names.size() > 1);
    show_sheet();
    Layout();
}

void TakeoffPage::show_sheet() {
    const auto index = static_cast<std::size_t>(std::max(0, sheets_->GetSelection()));
    if (!list_ || index >= list_->sheets.size()) return;
    table_->show(preview_of(*list_, list_->sheets[index], *state_.inputs->rules, answers_.table));
    rows_->SetColSize(0, FromDIP(112));
    rows_->SetColSize(1, FromDIP(150));
}

void TakeoffPage::answer(ListAnswer answer) {
    std::erase_if(answers_.answers, [&](const ListAnswer& other) {
        return other.reason == answer.reason && other.type == answer.type &&
               other.sheet == answer.sheet;
    });
    answers_.answers.push_back(std::move(answer));
    read();
}

void TakeoffPage::answer_chosen(ListAnswer::Does does) {
    const auto index = static_cast<std::size_t>(std::max(0L, questions_->chosen()));
    if (index < groups_.size()) answer(groups_[index].answer(does));
}

void TakeoffPage::answer_typed() {
    const auto index = static_cast<std::size_t>(std::max(0L, questions_->chosen()));
    const std::string text = typed_->GetValue().utf8_string();
    const auto counts = typed_counts(text, *state_.inputs->rules);
    if (index >= groups_.size()) return;
    if (!counts) {
        advice_->SetLabelText(wxString::FromUTF8("✗ '" + text +
                                                 "' names no signal; expected "
                                                 "one of the signals, as DI or 2 DI, 1 DO"));
        return;
    }
    ListAnswer given = groups_[index].answer(ListAnswer::Does::signals);
    given.signals = *counts;
    typed_->Clear();
    answer(std::move(given));
}

void TakeoffPage::accept_all() {
    ListAnswer all;
    all.reason = "any";
    answer(std::move(all));
}

void TakeoffPage::choose_role(int column) {
    wxMenu menu;
    for (std::size_t i = 0; i < role_words.size(); ++i)
        menu.Append(static_cast<int>(i) + 1, std::string(role_words[i]));
    menu.Append(static_cast<int>(role_words.size()) + 1, "ignore");
    const int chosen = rows_->GetPopupMenuSelectionFromUser(menu);
    if (chosen < 1) return;
    const auto role = static_cast<std::size_t>(chosen - 1);
    const std::string name = "column " + column_letters(static_cast<std::size_t>(column));
    std::erase_if(answers_.table.columns,
                  [&](const ColumnChoice& other) { return other.column == name; });
    answers_.table.columns.push_back(
        {name, role < role_words.size() ? std::string(role_words[role]) : "ignore"});
    read();
}

void TakeoffPage::go_to_question(long number) {
    whole_->show(questions_->cut_words(number), GetClientSize().x * 3 / 5);
    const auto index = static_cast<std::size_t>(number);
    if (index >= groups_.size() || groups_[index].rows.empty()) return;
    const auto& rows = table_->preview().rows;
    const auto found = std::ranges::find(rows, groups_[index].rows.front(), &PreviewRow::number);
    if (found == rows.end()) return;
    const int row = static_cast<int>(found - rows.begin());
    rows_->MakeCellVisible(row, 0);
    rows_->SelectRow(row);
}

void TakeoffPage::take_into_bid() {
    if (!list_ || reading_) return;
    try {
        for (const OpenQuestion& question : list_->takeoff.ask)
            if (question.row == 0 && question.sheet.empty())
                throw BadInput("The list itself is in question: " + question.text);
        Node request = *state_.session.request();
        name_empty_box(request, list_->takeoff);
        write_points(request, "the bid", list_->takeoff, list_->reading.file);
        state_.box = 0;
        state_.session.replace(std::move(request));
    } catch (const std::exception& fault) {
        advice_->SetLabelText(wxString::FromUTF8(std::string("✗ ") + fault.what()));
        return;
    }
    state_.refused.clear();
    state_.changed();
    leave_();
}

} // namespace backplate
