#include "app/desk/desk_frame.h"

#include <chrono>
#include <ctime>
#include <filesystem>

#include <fmt/core.h>
#include <wx/filedlg.h>
#include <wx/menu.h>
#include <wx/msgdlg.h>
#include <wx/sizer.h>
#include <wx/splitter.h>

#include "app/desk/accessible.h"
#include "app/desk/asked_panel.h"
#include "app/desk/built_panel.h"
#include "app/desk/findings.h"
#include "app/desk/number_entry.h"
#include "app/desk/priced_panel.h"
#include "app/desk/state_dump.h"

namespace backplate {
namespace {

Date today() {
    const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm local{};
    localtime_r(&now, &local);
    return Date::of(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

constexpr const char* request_files = "Requests (*.json)|*.json|All files|*";

wxSplitterWindow* make_splitter(wxWindow* parent, double gravity) {
    auto* splitter = new wxSplitterWindow(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize,
                                          wxSP_LIVE_UPDATE | wxSP_3DSASH);
    splitter->SetSashGravity(gravity);
    splitter->SetMinimumPaneSize(parent->FromDIP(120));
    return splitter;
}

} // namespace

DeskFrame::DeskFrame(std::shared_ptr<const Inputs> inputs, Session session, std::string dump)
    : wxFrame(nullptr, wxID_ANY, "Backplate"), dump_(std::move(dump)) {
    state_.inputs = std::move(inputs);
    state_.session = std::move(session);
    state_.decimal_mark = user_decimal_mark();
    state_.changed = [this] { request_changed(); };
    state_.look = [this] { show_all(); };
    engine_ = std::make_unique<EngineThread>([this](std::shared_ptr<const Answer> answer) {
        CallAfter([this, answer] { receive(answer); });
    });
    make_menu();
    make_panels();
    bind_commands();
    SetMinClientSize(FromDIP(wxSize(1000, 560)));
    SetSize(FromDIP(wxSize(1280, 720)));
    place_sashes();
    session_replaced();
}

void DeskFrame::make_menu() {
    auto* file = new wxMenu;
    file->Append(wxID_NEW);
    file->Append(wxID_OPEN, "&Open…\tCtrl+O");
    file->AppendSeparator();
    file->Append(wxID_SAVE);
    file->Append(wxID_SAVEAS, "Save &as…\tCtrl+Shift+S");
    file->AppendSeparator();
    file->Append(wxID_EXIT);
    auto* edit = new wxMenu;
    edit->Append(wxID_UNDO, "&Undo\tCtrl+Z");
    edit->Append(wxID_REDO, "&Redo\tCtrl+Shift+Z");
    auto* bar = new wxMenuBar;
    bar->Append(file, "&File");
    bar->Append(edit, "&Edit");
    SetMenuBar(bar);
}

void DeskFrame::make_panels() {
    page_ = make_splitter(this, 0.8);
    columns_ = make_splitter(page_, 0.36);
    asked_ = new AskedPanel(columns_, state_);
    answer_ = make_splitter(columns_, 0.56);
    built_ = new BuiltPanel(answer_, state_);
    priced_ = new PricedPanel(answer_, state_);
    findings_ = new Findings(page_, state_, [this](const std::string& pointer) {
        asked_->focus(pointer);
        write_dump();
    });
    answer_->SplitVertically(built_, priced_);
    columns_->SplitVertically(asked_, answer_);
    page_->SplitHorizontally(columns_, findings_);
    auto* all = new wxBoxSizer(wxVERTICAL);
    all->Add(page_, wxSizerFlags(1).Expand());
    SetSizer(all);
}

/// From outside in: a sash can only be placed in a window that has its size.
void DeskFrame::place_sashes() {
    Layout();
    page_->SetSashPosition(-FromDIP(165));
    columns_->SetSashPosition(FromDIP(500));
    answer_->SetSashPosition(FromDIP(415));
}

void DeskFrame::bind_commands() {
    const auto on = [this](int id, auto act) {
        Bind(
            wxEVT_MENU, [act](wxCommandEvent&) { act(); }, id);
    };
    on(wxID_NEW, [this] { on_new(); });
    on(wxID_OPEN, [this] { on_open(); });
    on(wxID_SAVE, [this] { save(); });
    on(wxID_SAVEAS, [this] { save_as(); });
    on(wxID_EXIT, [this] { Close(); });
    on(wxID_UNDO, [this] {
        state_.session.undo();
        request_changed();
    });
    on(wxID_REDO, [this] {
        state_.session.redo();
        request_changed();
    });
    Bind(
        wxEVT_UPDATE_UI, [this](wxUpdateUIEvent& e) { e.Enable(state_.session.can_undo()); },
        wxID_UNDO);
    Bind(
        wxEVT_UPDATE_UI, [this](wxUpdateUIEvent& e) { e.Enable(state_.session.can_redo()); },
        wxID_REDO);
    Bind(wxEVT_CLOSE_WINDOW, &DeskFrame::on_close, this);
    if (dump_.empty()) return;
    Bind(wxEVT_IDLE, [this](wxIdleEvent& event) {
        if (given_name(wxWindow::FindFocus()) != dumped_focus_) write_dump();
        event.Skip();
    });
}

void DeskFrame::session_replaced() {
    state_.box = 0;
    request_changed();
}

void DeskFrame::on_new() {
    if (!may_leave()) return;
    state_.session.start(blank_request());
    session_replaced();
}

void DeskFrame::on_open() {
    if (!may_leave()) return;
    wxFileDialog dialog(this, "Open a request", "", "", request_files,
                        wxFD_OPEN | wxFD_FILE_MUST_EXIST);
    if (dialog.ShowModal() != wxID_OK) return;
    try {
        state_.session.open(dialog.GetPath().utf8_string());
        session_replaced();
    } catch (const std::exception& fault) {
        say_fault(fault.what());
    }
}

bool DeskFrame::save() {
    return state_.session.file().empty() ? save_as() : write_to(state_.session.file());
}

bool DeskFrame::save_as() {
    const std::filesystem::path file(state_.session.file());
    wxFileDialog dialog(this, "Save the request as",
                        wxString::FromUTF8(file.parent_path().string()),
                        wxString::FromUTF8(file.filename().string()), request_files,
                        wxFD_SAVE | wxFD_OVERWRITE_PROMPT);
    return dialog.ShowModal() == wxID_OK && write_to(dialog.GetPath().utf8_string());
}

bool DeskFrame::write_to(const std::string& path) {
    asked_->points().finish_edit();
    try {
        state_.session.save_as(path);
    } catch (const std::exception& fault) {
        say_fault(fault.what());
        return false;
    }
    show_title();
    write_dump();
    return true;
}

/// Leaving an unsaved request is the one thing that undo cannot bring back.
bool DeskFrame::may_leave() {
    asked_->points().finish_edit();
    if (!state_.session.dirty()) return true;
    wxMessageDialog dialog(this, "This request has changes that no file holds yet.", "Backplate",
                           wxYES_NO | wxCANCEL | wxICON_QUESTION);
    dialog.SetYesNoLabels("Save", "Leave without saving");
    const int choice = dialog.ShowModal();
    return choice == wxID_NO || (choice == wxID_YES && save());
}

void DeskFrame::on_close(wxCloseEvent& event) {
    if (event.CanVeto() && !may_leave())
        event.Veto();
    else
        Destroy();
}

void DeskFrame::request_changed() {
    const Node* boxes = state_.session.value("/boxes");
    const std::size_t count = boxes ? boxes->items.size() : 0;
    if (state_.box >= count) state_.box = count == 0 ? 0 : count - 1;
    engine_->ask(std::make_shared<const Question>(
        Question{++state_.asked, state_.inputs, state_.session.request(), today()}));
    asked_->show();
    show_title();
}

void DeskFrame::receive(std::shared_ptr<const Answer> answer) {
    state_.answer = std::move(answer);
    if (state_.answer->estimate) state_.good = state_.answer;
    show_all();
}

void DeskFrame::show_all() {
    asked_->show();
    built_->show();
    priced_->show();
    findings_->show();
    write_dump();
}

void DeskFrame::show_title() {
    const std::string title = state_.session.title();
    SetTitle(wxString::FromUTF8((state_.session.dirty() ? "*" : "") + std::string("Backplate - ") +
                                (title.empty() ? "untitled job" : title)));
}

void DeskFrame::say_fault(const std::string& text) {
    fmt::print(stderr, "backplate-desk: {}\n", text);
    if (dump_.empty())
        wxMessageBox(wxString::FromUTF8(text), "Backplate", wxOK | wxICON_WARNING, this);
}

void DeskFrame::write_dump() {
    if (dump_.empty()) return;
    dumped_focus_ = given_name(wxWindow::FindFocus());
    dump_state(dump_, {state_, GetTitle().utf8_string(), priced_->price_text(),
                       priced_->notes_text(), dumped_focus_, assertions_met(), asked_->points()});
}

} // namespace backplate
