#include "app/desk/desk_frame.h"

#include <filesystem>

#include <wx/app.h>
#include <wx/menu.h>
#include <wx/simplebook.h>

#include "app/desk/asked_panel.h"
#include "app/desk/commands.h"
#include "app/desk/findings.h"
#include "app/desk/help.h"
#include "app/desk/priced_panel.h"
#include "app/desk/takeoff_page.h"
#include "app/desk/why_window.h"

namespace backplate {
namespace {

constexpr const char* page_titles[] = {"Points", "Site", "Box", "Equipment", "Job", "Terms"};

} // namespace

void DeskFrame::fill_file_menu(wxMenu& menu) {
    menu.Append(wxID_NEW);
    menu.Append(command::duplicate, "&Duplicate\tCtrl+Shift+D");
    menu.Append(wxID_OPEN, wxString::FromUTF8("&Open…\tCtrl+O"));
    recent_menu_ = new wxMenu;
    drafts_menu_ = new wxMenu;
    menu.AppendSubMenu(recent_menu_, "&Recent");
    menu.AppendSubMenu(drafts_menu_, "Dra&fts");
    menu.Append(command::open_job, wxString::FromUTF8("Open &job…\tCtrl+J"));
    menu.AppendSeparator();
    menu.Append(wxID_SAVE);
    menu.Append(wxID_SAVEAS, wxString::FromUTF8("Save &as…\tCtrl+Shift+S"));
    menu.Append(command::save_job, "Save as a ne&w job\tCtrl+Shift+J");
    menu.Append(command::revise_job, "New re&vision of the job");
    menu.AppendSeparator();
    menu.Append(command::take_off, wxString::FromUTF8("&Take off a list…\tCtrl+T"));
    menu.Append(command::documents, wxString::FromUTF8("Docu&ments…\tCtrl+E"));
    menu.Append(command::open_folder, "Open t&he documents' folder\tCtrl+Shift+E");
    menu.AppendSeparator();
    menu.Append(command::shop, wxString::FromUTF8("&Your shop…"));
    menu.Append(command::read_again, "Read prices and rules a&gain\tF5");
    menu.AppendSeparator();
    menu.Append(wxID_EXIT);
}

void DeskFrame::fill_price_menu(wxMenu& menu) {
    for (int i = 0; i < command::most_alternatives; ++i)
        menu.Append(command::take_first + i,
                    wxString::Format("Take alternative &%d\tAlt+%d", i + 1, i + 1));
    menu.AppendSeparator();
    menu.Append(command::stop_looking, "&Stop looking\tShift+Esc");
}

void DeskFrame::fill_edit_menu(wxMenu& menu) {
    menu.Append(wxID_UNDO, "&Undo\tCtrl+Z");
    menu.Append(wxID_REDO, "&Redo\tCtrl+Shift+Z");
    menu.AppendSeparator();
    menu.Append(command::accept_all, "&Accept all proposals\tCtrl+Shift+A");
    menu.Append(command::confirm, "&Confirm what is copied here\tCtrl+K");
    menu.Append(command::confirm_all, "Confirm a&ll that is copied\tCtrl+Shift+K");
    menu.AppendSeparator();
    menu.Append(command::add_box, "Add a &box\tCtrl+B");
    menu.Append(command::double_box, "&Double the box\tCtrl+Shift+B");
    menu.Append(command::remove_box, "Re&move the box");
}

void DeskFrame::make_menu() {
    auto* file = new wxMenu;
    fill_file_menu(*file);
    auto* edit = new wxMenu;
    fill_edit_menu(*edit);
    auto* view = new wxMenu;
    for (int i = 0; i < command::most_pages; ++i)
        view->Append(command::page_first + i,
                     wxString::Format("&%s\tCtrl+%d", page_titles[i], i + 1));
    view->AppendSeparator();
    view->Append(command::next_box, "&Next box\tCtrl+PgDn");
    view->Append(command::box_before, "Box be&fore\tCtrl+PgUp");
    view->Append(command::next_column, "Next &column\tF6");
    view->Append(command::next_finding, "Next &question\tF8");
    view->Append(command::why_value, "&Where the value comes from\tCtrl+I");
    auto* price = new wxMenu;
    fill_price_menu(*price);
    auto* help = new wxMenu;
    help->Append(wxID_HELP, "&Guide\tF1");
    help->Append(command::keys, "&Keys");
    help->AppendSeparator();
    help->Append(wxID_ABOUT);
    auto* bar = new wxMenuBar;
    bar->Append(file, "&File");
    bar->Append(edit, "&Edit");
    bar->Append(view, "&View");
    bar->Append(price, "&Price");
    bar->Append(help, "&Help");
    SetMenuBar(bar);
    Bind(wxEVT_MENU_OPEN, [this](wxMenuEvent& event) {
        fill_list_menus();
        event.Skip();
    });
}

/// Recent files and drafts as they are now.
void DeskFrame::fill_list_menus() {
    const auto empty = [](wxMenu& menu) {
        while (menu.GetMenuItemCount() > 0) menu.Delete(menu.FindItemByPosition(0));
    };
    empty(*recent_menu_);
    empty(*drafts_menu_);
    listed_.clear();
    const auto add = [this](wxMenu& menu, const std::string& label, const std::string& path) {
        const int id = command::listed_first + static_cast<int>(listed_.size());
        if (id >= command::listed_end) return;
        menu.Append(id, wxControl::EscapeMnemonics(wxString::FromUTF8(label)));
        listed_.push_back(path);
    };
    for (const std::string& file : files_->recent())
        add(*recent_menu_,
            file.starts_with("job:") ? file.substr(0, file.find(' '))
                                     : std::filesystem::path(file).filename().string(),
            file);
    for (const Draft& draft : files_->left())
        add(*drafts_menu_, draft.title().empty() ? "untitled job" : draft.title(), draft.path);
    for (wxMenu* menu : {recent_menu_, drafts_menu_})
        if (menu->GetMenuItemCount() == 0) menu->Append(wxID_ANY, "none")->Enable(false);
}

void DeskFrame::bind_commands() {
    const auto on = [this](int id, auto act) {
        Bind(
            wxEVT_MENU,
            [this, act](wxCommandEvent&) {
                asked_->finish_edit();
                act();
            },
            id);
    };
    on(wxID_NEW, [this] { files_->make_new(); });
    on(command::duplicate, [this] { files_->duplicate(); });
    on(wxID_OPEN, [this] { files_->open_by_dialog(); });
    on(wxID_SAVE, [this] { files_->save(); });
    on(wxID_SAVEAS, [this] { files_->save_as(); });
    on(command::open_job, [this] { files_->open_job_by_dialog(); });
    on(command::save_job, [this] { files_->save_as_job(); });
    on(command::revise_job, [this] { files_->revise_job(); });
    on(command::confirm, [this] { confirm(false); });
    on(command::confirm_all, [this] { confirm(true); });
    on(wxID_EXIT, [this] { Close(); });
    on(wxID_UNDO, [this] { undo(false); });
    on(wxID_REDO, [this] { undo(true); });
    on(command::shop, [this] { ask_about_shop(); });
    on(command::take_off, [this] { take_off_by_dialog(); });
    on(command::accept_all, [this] { takeoff_->accept_all(); });
    on(command::documents, [this] { documents_->ask(); });
    on(command::open_folder, [this] { documents_->open_folder(); });
    on(command::read_again, [this] { read_inputs_again(); });
    bind_list_commands();
    bind_page_commands();
    bind_keys();
    Bind(wxEVT_CLOSE_WINDOW, &DeskFrame::on_close, this);
    if (start_.dump.empty()) return;
    Bind(wxEVT_IDLE, [this](wxIdleEvent& event) {
        write_dump();
        event.Skip();
    });
}

/// Recent files and drafts, by the numbers of their entries.
void DeskFrame::bind_list_commands() {
    Bind(
        wxEVT_MENU,
        [this](wxCommandEvent& event) {
            const auto number = static_cast<std::size_t>(event.GetId() - command::listed_first);
            if (number >= listed_.size()) return;
            const std::string path = listed_[number];
            for (const Draft& draft : files_->left())
                if (draft.path == path) return files_->recover_draft(path);
            files_->open(path);
        },
        command::listed_first, command::listed_end);
    Bind(
        wxEVT_UPDATE_UI, [this](wxUpdateUIEvent& e) { e.Enable(state_.session.can_undo()); },
        wxID_UNDO);
    Bind(
        wxEVT_UPDATE_UI, [this](wxUpdateUIEvent& e) { e.Enable(state_.session.can_redo()); },
        wxID_REDO);
}

/// Keys of the menu that a grid or the pages would keep to themselves.
void DeskFrame::bind_keys() {
    Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
        const int key = event.GetKeyCode();
        if (key == WXK_ESCAPE && event.ShiftDown()) return stop_looking();
        const bool turns = key == WXK_PAGEDOWN || key == WXK_PAGEUP;
        if (!event.CmdDown() || !turns || book_->GetSelection() != 0) return event.Skip();
        asked_->finish_edit(); // into the box that is left
        asked_->boxes().step_box(key == WXK_PAGEDOWN ? 1 : -1);
    });
}

void DeskFrame::bind_page_commands() {
    const auto on = [this](int id, auto act) {
        Bind(
            wxEVT_MENU, [act](wxCommandEvent&) { act(); }, id);
    };
    on(command::add_box, [this] { asked_->boxes().add_box(false); });
    on(command::double_box, [this] { asked_->boxes().add_box(true); });
    on(command::remove_box, [this] { asked_->boxes().remove_box(); });
    on(command::next_box, [this] { asked_->boxes().step_box(1); });
    on(command::box_before, [this] { asked_->boxes().step_box(-1); });
    on(wxID_HELP, [this] { show_guide(*this); });
    on(command::keys, [this] { show_keys(*this); });
    on(wxID_ABOUT, [this] { show_about(*this); });
    on(command::stop_looking, [this] { stop_looking(); });
    on(command::next_column, [this] { next_column(); });
    on(command::next_finding, [this] { findings_->choose_next(); });
    on(command::why_value, [this] {
        if (const std::string value = asked_->value_in_focus(); !value.empty())
            why().ask_value(value);
    });
    Bind(
        wxEVT_MENU,
        [this](wxCommandEvent& event) {
            if (book_->GetSelection() != 0) show_page(0);
            asked_->turn_to(static_cast<std::size_t>(event.GetId() - command::page_first));
        },
        command::page_first, command::page_first + command::most_pages - 1);
    Bind(
        wxEVT_MENU,
        [this](wxCommandEvent& event) {
            asked_->finish_edit();
            if (state_.good && state_.good->looking) return; // not numbered yet
            priced_->take(static_cast<std::size_t>(event.GetId() - command::take_first));
        },
        command::take_first, command::take_first + command::most_alternatives - 1);
}

} // namespace backplate
