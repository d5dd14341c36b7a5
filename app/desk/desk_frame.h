#pragma once

#include <string>

#include <wx/frame.h>

#include "app/desk/desk_state.h"
#include "app/desk/document_writer.h"
#include "app/desk/request_files.h"

class wxInfoBar;
class wxSimplebook;
class wxSplitterWindow;

namespace backplate {

class AskedPanel;
class BuiltPanel;
class FactsBar;
class Findings;
class PricedPanel;
class TakeoffPage;
class WhyWindow;

/// What the window is started with.
struct DeskStart {
    std::string dump;        ///< where every state shown is written for tests; empty: nowhere
    std::string user_folder; ///< drafts and recent files; empty: none are kept
    bool named_file = false; ///< the session's file was asked for
};

/// The window: one page for a bid. It owns the state; every change of the session asks the
/// engine, every answer is shown by all panels at once.
class DeskFrame : public wxFrame {
public:
    DeskFrame(std::shared_ptr<const Inputs> inputs, Session session, DeskStart start);
    ~DeskFrame() override;

    /// Says a fault in the window's own way; in a test run on standard error only.
    void say_fault(const std::string& text);
    /// Says something worth knowing above the page.
    void say(const std::string& text);

private:
    void make_state(std::shared_ptr<const Inputs> inputs, Session session);
    void make_menu();
    void fill_file_menu(wxMenu& menu);
    void fill_edit_menu(wxMenu& menu);
    void fill_price_menu(wxMenu& menu);
    void fill_list_menus();
    void make_panels();
    void place_sashes();
    void arrange();
    void next_column();
    void bind_commands();
    void bind_page_commands();
    void bind_list_commands();
    void bind_keys();
    void on_close(wxCloseEvent& event);

    void request_replaced();
    void request_changed();
    void receive(std::shared_ptr<const Answer> answer);
    void show_all();
    void show_title();
    WhyWindow& why();
    void write_dump();
    void undo(bool forth);
    void confirm(bool all);
    void stop_looking();
    void lead(const std::string& pointer);
    void read_inputs_again();
    void ask_about_shop();
    void welcome();
    void take_off_by_dialog();
    void take_off(const std::string& path);
    void show_page(std::size_t number);
    wxWindow* make_bid_page();

    DeskStart start_;
    DeskState state_;
    bool narrow_ = false;      ///< room for two columns only
    bool built_first_ = false; ///< of a narrow window: what is built beside the price
    std::string said_;         ///< above the page, last
    wxMenu *recent_menu_ = nullptr, *drafts_menu_ = nullptr;
    std::vector<std::string> listed_; ///< files and drafts by the number of their menu entry
    wxInfoBar* info_ = nullptr;
    wxSimplebook* book_ = nullptr;        ///< the bid, the take-off
    wxSplitterWindow* page_ = nullptr;    ///< columns over findings
    wxSplitterWindow* columns_ = nullptr; ///< asked beside the answer
    wxSplitterWindow* answer_ = nullptr;  ///< built beside priced
    FactsBar* facts_ = nullptr;
    AskedPanel* asked_ = nullptr;
    BuiltPanel* built_ = nullptr;
    PricedPanel* priced_ = nullptr;
    Findings* findings_ = nullptr;
    TakeoffPage* takeoff_ = nullptr;
    WhyWindow* why_ = nullptr;
    std::unique_ptr<DocumentWriter> documents_;
    std::unique_ptr<RequestFiles> files_;
    std::unique_ptr<EngineThread> engine_; ///< last: ends first
};

/// Assertions met so far; an assertion is printed and never stops the work.
int assertions_met();

} // namespace backplate
