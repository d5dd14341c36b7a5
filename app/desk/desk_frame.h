#pragma once

#include <string>

#include <wx/frame.h>

#include "app/desk/desk_state.h"

class wxSplitterWindow;

namespace backplate {

class AskedPanel;
class BuiltPanel;
class PricedPanel;
class Findings;

/// The window: one page for a bid. It owns the state; every change of the session asks the
/// engine, every answer is shown by all panels at once.
class DeskFrame : public wxFrame {
public:
    /// `dump`: where every state shown is written for tests; empty: nowhere.
    DeskFrame(std::shared_ptr<const Inputs> inputs, Session session, std::string dump);

    /// Says a fault in the window's own way; in a test run on standard error only.
    void say_fault(const std::string& text);

private:
    void make_menu();
    void make_panels();
    void place_sashes();
    void bind_commands();

    void on_new();
    void on_open();
    void session_replaced();
    bool save();
    bool save_as();
    bool write_to(const std::string& path);
    bool may_leave();
    void on_close(wxCloseEvent& event);

    void request_changed();
    void receive(std::shared_ptr<const Answer> answer);
    void show_all();
    void show_title();
    void write_dump();

    DeskState state_;
    std::string dump_;
    std::string dumped_focus_;
    wxSplitterWindow* page_ = nullptr;    ///< columns over findings
    wxSplitterWindow* columns_ = nullptr; ///< asked beside the answer
    wxSplitterWindow* answer_ = nullptr;  ///< built beside priced
    AskedPanel* asked_ = nullptr;
    BuiltPanel* built_ = nullptr;
    PricedPanel* priced_ = nullptr;
    Findings* findings_ = nullptr;
    std::unique_ptr<EngineThread> engine_; ///< last: ends first
};

/// Assertions met so far; an assertion is printed and never stops the work.
int assertions_met();

} // namespace backplate
