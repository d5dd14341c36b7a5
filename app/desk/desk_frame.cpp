#include "app/desk/desk_frame.h"

#include <chrono>
#include <ctime>

#include <fmt/core.h>
#include <wx/display.h>
#include <wx/dnd.h>
#include <wx/filedlg.h>
#include <wx/infobar.h>
#include <wx/msgdlg.h>
#include <wx/simplebook.h>
#include <wx/sizer.h>
#include <wx/splitter.h>

#include "app/desk/accessible.h"
#include "app/desk/asked_panel.h"
#include "app/desk/built_panel.h"
#include "app/desk/facts_bar.h"
#include "app/desk/findings.h"
#include "app/desk/handler_clock.h"
#include "app/desk/number_entry.h"
#include "app/desk/priced_panel.h"
#include "app/desk/shop_dialog.h"
#include "app/desk/state_dump.h"
#include "app/desk/takeoff_page.h"
#include "app/desk/why_window.h"
#include "app/stored_data.h"

namespace backplate {
namespace {

Date day_now() {
    const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm local{};
    localtime_r(&now, &local);
    return Date::of(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

wxSplitterWindow* make_splitter(wxWindow* parent, double gravity) {
    auto* splitter = new wxSplitterWindow(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize,
                                          wxSP_LIVE_UPDATE | wxSP_3DSASH);
    splitter->SetSashGravity(gravity);
    splitter->SetMinimumPaneSize(parent->FromDIP(90));
    return splitter;
}

/// A file let fall onto the window.
class ListDrop : public wxFileDropTarget {
public:
    explicit ListDrop(std::function<void(const std::string&)> open) : open_(std::move(open)) {}
    bool OnDropFiles(wxCoord, wxCoord, const wxArrayString& files) override {
        if (files.empty()) return false;
        open_(files[0].utf8_string());
        return true;
    }

private:
    std::function<void(const std::string&)> open_;
};

} // namespace

DeskFrame::DeskFrame(std::shared_ptr<const Inputs> inputs, Session session, DeskStart start)
    : wxFrame(nullptr, wxID_ANY, "Backplate"), start_(std::move(start)) {
    make_state(std::move(inputs), std::move(session));
    engine_ = std::make_unique<EngineThread>([this](std::shared_ptr<const Answer> answer) {
        CallAfter([this, answer] { receive(answer); });
    });
    make_menu();
    SetSize(wxDisplay().GetClientArea().GetSize());
    make_panels();
    files_ = std::make_unique<RequestFiles>(
        *this, state_, start_.user_folder,
        RequestFiles::Calls{[this] { request_replaced(); },
                            [this](const std::string& text) { say_fault(text); },
                            [this](const std::string& text) { say(text); }});
    documents_ = std::make_unique<DocumentWriter>(
        *this, state_,
        DocumentWriter::Calls{[this](const std::string& text) { say(text); },
                              [this](const std::string& text) { say_fault(text); }});
    bind_commands();
    SetMinClientSize(FromDIP(wxSize(830, 520)));
    Maximize();
    place_sashes();
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        const bool narrow = GetClientSize().x < FromDIP(1100);
        if (narrow == narrow_) return;
        narrow_ = narrow;
        CallAfter([this] { arrange(); });
    });
    files_->recover(!start_.named_file);
    request_changed();
    welcome();
    asked_->points().SetFocus();
}

DeskFrame::~DeskFrame() {
    engine_.reset();
    documents_.reset();
    DestroyChildren(); // they look at the state to the last
    files_.reset();
}

void DeskFrame::make_state(std::shared_ptr<const Inputs> inputs, Session session) {
    state_.inputs = std::move(inputs);
    state_.session = std::move(session);
    state_.decimal_mark = user_decimal_mark();
    state_.today = day_now();
    state_.changed = [this] { request_changed(); };
    state_.look = [this] { show_all(); };
    state_.lead = [this](const std::string& pointer) { lead(pointer); };
    state_.why = [this](const std::string& pointer) { why().ask(pointer); };
}

WhyWindow& DeskFrame::why() {
    if (!why_) why_ = new WhyWindow(this, state_);
    return *why_;
}

void DeskFrame::make_panels() {
    info_ = new wxInfoBar(this);
    book_ = new wxSimplebook(this, wxID_ANY);
    book_->AddPage(make_bid_page(), "Bid");
    takeoff_ = new TakeoffPage(book_, state_, [this] { show_page(0); });
    book_->AddPage(takeoff_, "Take-off");
    auto* all = new wxBoxSizer(wxVERTICAL);
    all->Add(info_, wxSizerFlags().Expand());
    all->Add(book_, wxSizerFlags(1).Expand());
    SetSizer(all);
    SetDropTarget(new ListDrop([this](const std::string& path) {
        if (path.ends_with(".json"))
            files_->open(path);
        else
            take_off(path);
    }));
}

wxWindow* DeskFrame::make_bid_page() {
    auto* bid = new wxPanel(book_);
    facts_ = new FactsBar(bid, state_);
    page_ = make_splitter(bid, 0.9);
    columns_ = make_splitter(page_, 0.35);
    asked_ = new AskedPanel(columns_, state_);
    answer_ = make_splitter(columns_, 0.7);
    built_ = new BuiltPanel(answer_, state_);
    priced_ = new PricedPanel(answer_, state_);
    findings_ = new Findings(page_, state_);
    answer_->SplitVertically(built_, priced_, FromDIP(350));
    columns_->SplitVertically(asked_, answer_, FromDIP(470));
    page_->SplitHorizontally(columns_, findings_, -FromDIP(130));
    auto* rows = new wxBoxSizer(wxVERTICAL);
    rows->Add(facts_, wxSizerFlags().Expand());
    rows->Add(page_, wxSizerFlags(1).Expand());
    bid->SetSizer(rows);
    return bid;
}

void DeskFrame::show_page(std::size_t number) {
    book_->ChangeSelection(number);
    if (number == 0) asked_->points().SetFocus();
}

/// The five questions of a first start; their answers are one change set of the library.
void DeskFrame::ask_about_shop() {
    if (!state_.estimate() || !state_.estimate()->price)
        return say("The questions compare with a job in view that has a price");
    ShopDialog dialog(this, state_);
    if (dialog.ShowModal() != wxID_OK || !dialog.rules()) return;
    try {
        open_library(state_.inputs->library)
            .change_rules([&](const RuleTables&) { return *dialog.rules(); },
                          {user_name(), "first start: rates and norms of the shop"});
        read_inputs_again();
        say("Rates and norms are those of your shop now; `library undo` takes them back");
    } catch (const std::exception& fault) {
        say_fault(fault.what());
    }
}

/// One line that says what to try, while nobody has made the norms his own.
void DeskFrame::welcome() {
    if (start_.user_folder.empty() || state_.inputs->rules->norms_confirmed || start_.named_file)
        return;
    if (said_.empty())
        say("A demo job: change a count and watch the price; Ctrl+N begins your own. Five answers "
            "(File, Your shop) make the norms yours.");
}

void DeskFrame::take_off_by_dialog() {
    wxFileDialog dialog(this, "Take off a client's list", "", "",
                        "Lists (*.csv;*.tsv;*.txt;*.xlsx;*.ods)|*.csv;*.tsv;*.txt;*.xlsx;*.ods|"
                        "All files|*",
                        wxFD_OPEN | wxFD_FILE_MUST_EXIST);
    if (dialog.ShowModal() == wxID_OK) take_off(dialog.GetPath().utf8_string());
}

void DeskFrame::take_off(const std::string& path) {
    show_page(1);
    takeoff_->open(path);
}

/// From outside in: a sash can only be placed in a window that has its size.
void DeskFrame::place_sashes() {
    Layout();
    const wxSize size = GetClientSize();
    const int more = std::max(0, size.x - FromDIP(1280)); // the grids have the most to show
    const int asked = FromDIP(460) + more * 42 / 100;
    const int priced = FromDIP(474) + more * 16 / 100;
    page_->SetSashPosition(-std::max(FromDIP(130), size.y * 19 / 100));
    columns_->SetSashPosition(asked);
    answer_->SetSashPosition(std::max(FromDIP(280), size.x - asked - priced));
}

/// In a narrow window what is asked and what is built take turns beside the price.
void DeskFrame::arrange() {
    const bool asked = !narrow_ || !built_first_;
    const bool built = !narrow_ || built_first_;
    if (built && !answer_->IsSplit()) {
        built_->Show();
        answer_->SplitVertically(built_, priced_);
    }
    if (!built && answer_->IsSplit()) answer_->Unsplit(built_);
    if (asked && !columns_->IsSplit()) {
        asked_->Show();
        columns_->SplitVertically(asked_, answer_);
    }
    if (!asked && columns_->IsSplit()) columns_->Unsplit(asked_);
    if (!narrow_) return place_sashes();
    const int first = std::max(FromDIP(360), GetClientSize().x - FromDIP(450));
    (asked ? columns_ : answer_)->SetSashPosition(first);
}

void DeskFrame::next_column() {
    if (narrow_) {
        built_first_ = !built_first_;
        arrange();
        return built_first_ ? built_->focus_first() : asked_->points().SetFocus();
    }
    wxWindow* focus = wxWindow::FindFocus();
    const auto holds = [&](wxWindow* column) { return focus && column->IsDescendant(focus); };
    if (holds(asked_))
        built_->focus_first();
    else if (holds(built_))
        priced_->focus_first();
    else
        asked_->turn_to(asked_->page_in_view());
}

/// What no file holds stays as a draft; nothing is asked.
void DeskFrame::on_close(wxCloseEvent&) {
    asked_->finish_edit();
    files_->keep();
    Destroy();
}

void DeskFrame::undo(bool forth) {
    if (forth)
        state_.session.redo();
    else
        state_.session.undo();
    state_.refused.clear();
    request_changed();
}

/// Only what comes after the estimate: a bid without a price helps nobody.
void DeskFrame::stop_looking() {
    if (!state_.answer || state_.answer->generation != state_.asked || state_.answer->steps) return;
    engine_->stop();
    state_.stopped = state_.asked;
    show_all();
}

void DeskFrame::confirm(bool all) {
    std::vector<std::string> fields;
    if (all)
        for (const auto& [place, field] : state_.unconfirmed) fields.push_back(field);
    else if (const std::string pointer = asked_->pointer_in_focus(); !pointer.empty())
        fields = state_.to_confirm(pointer);
    if (fields.empty()) return say("Nothing here waits to be confirmed");
    state_.session.confirm(fields);
    request_changed();
}

void DeskFrame::lead(const std::string& pointer) {
    if (pointer.starts_with("#")) return state_.why(pointer.substr(1));
    Raise();
    if (narrow_ && built_first_) {
        built_first_ = false;
        arrange();
    }
    if (!facts_->focus(pointer)) asked_->focus(pointer);
}

void DeskFrame::read_inputs_again() {
    try {
        state_.inputs = std::make_shared<const Inputs>(load_inputs(state_.inputs->library));
        request_changed();
    } catch (const std::exception& fault) {
        say_fault(fault.what());
    }
}

void DeskFrame::request_replaced() {
    state_.box = 0;
    state_.refused.clear();
    state_.answer.reset(); // the figures of another bid
    state_.good.reset();
    show_page(0);
    request_changed();
    show_all();
    asked_->turn_to(0);
    asked_->points().go_to(0, "");
}

void DeskFrame::request_changed() {
    const Node* boxes = state_.session.value("/boxes");
    const std::size_t count = boxes ? boxes->items.size() : 0;
    if (state_.box >= count) state_.box = count == 0 ? 0 : count - 1;
    state_.today = day_now();
    state_.unconfirmed = state_.session.unconfirmed();
    engine_->ask(std::make_shared<const Question>(
        Question{++state_.asked, state_.inputs, state_.session.request(), state_.today,
                 state_.session.inherited(), state_.session.saved_as()}));
    files_->keep();
    facts_->show();
    asked_->show();
    show_title();
}

void DeskFrame::receive(std::shared_ptr<const Answer> answer) {
    const HandlerClock clock(L"an answer"); // no event handler of the toolkit's
    state_.answer = std::move(answer);
    if (state_.answer->estimate) state_.good = state_.answer;
    show_all();
}

void DeskFrame::show_all() {
    facts_->show();
    asked_->show();
    built_->show();
    priced_->show();
    findings_->show();
    show_title();
}

void DeskFrame::show_title() {
    const std::string title = state_.session.title();
    const wxString words =
        wxString::FromUTF8((state_.session.dirty() ? "*" : "") + std::string("Backplate - ") +
                           (title.empty() ? "untitled job" : title));
    if (GetTitle() != words) SetTitle(words);
}

void DeskFrame::say_fault(const std::string& text) {
    fmt::print(stderr, "backplate-desk: {}\n", text);
    if (start_.dump.empty())
        wxMessageBox(wxString::FromUTF8(text), "Backplate", wxOK | wxICON_WARNING, this);
}

void DeskFrame::say(const std::string& text) {
    said_ = text;
    info_->ShowMessage(wxControl::EscapeMnemonics(wxString::FromUTF8(text)), wxICON_INFORMATION);
}

void DeskFrame::write_dump() {
    if (start_.dump.empty()) return;
    dump_state(start_.dump,
               {state_, GetTitle().utf8_string(), *priced_, *built_, findings_->list(),
                facts_->send_text(), given_name(wxWindow::FindFocus()), assertions_met(),
                asked_->points(), asked_->page_in_view(), files_->kept(),
                why_ && why_->IsShown() ? why_->formula_text() : std::string(),
                documents_->written(), said_, *takeoff_, book_->GetSelection() == 1});
}

} // namespace backplate
