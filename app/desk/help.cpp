#include "app/desk/help.h"

#include <wx/aboutdlg.h>
#include <wx/frame.h>
#include <wx/sizer.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/inputs.h"

namespace backplate {
namespace {

constexpr const char* guide =
    R"(THE BID ON ONE PAGE

Left: what is asked. Middle: what is built. Right: what it costs. Below: what is unclear.
Every entry is sized and priced at once; alternatives and price steps follow a moment later.

Points        Type into the empty row: "48 di" is 48 points DI. The beginning of a signal is
              enough where only one begins so. Grey values are defaults; type over them to
              state your own; Ctrl+I says where one comes from. Cells come from a spreadsheet
              and go there, with their heading or without.
Site, Box     Climate, housing, supply, choices. Empty: the default in grey counts.
Equipment     What else stands in the box; parts to keep or to replace.
Job, Terms    Enquiry, spare, scope of supply, margin.

An entry that cannot be taken is not taken: the line below says what was expected.

Panel         Drawn to scale: the wheel zooms, dragging moves, 0 fits. Choose a device to see
              what may stand in its place, at which price; to keep its part or leave it out.
why?          The key beside a figure shows its formula, inputs, rule row and source. Return
              on an input leads on to it.
Findings      The gravest first; Return or F8 leads to the field. Above the page stands
              whether the bid may be sent, and what forbids it.
Alternatives  Alt+1 to Alt+9 take one; undo brings the old one back. "≈": the prices lie
              nearer together than the estimate is sure of.
Steps         Where one more point of a signal costs more than its channel.

A CLIENT'S LIST (Ctrl+T, or let the file fall onto the window)

Each row says what became of it. Answer the questions on the right; Return takes the
proposal. A right click on a heading says what its column holds. Ctrl+Return takes the
points into the bid, one undo takes them out again.

JOBS AND FILES

Ctrl+Shift+J saves the bid as a job of the library, Ctrl+S what was changed of it. Ctrl+J finds
a job by any of its words; there it is opened or copied as template. A copied value bears a
question mark until Ctrl+K confirms it or another one is typed over it.
Nothing has to be saved to be safe: what no file holds is kept as a draft and comes back at
the next start (File, Drafts). Ctrl+E writes workbook, client edition, drawing and enquiry
sheet; no file is overwritten.

This is an estimate, not a design. A qualified person must review it before anything is
built.)";

constexpr const char* key_list =
    R"(Ctrl+N           new bid                   Ctrl+Z            undo, without end
Ctrl+O           open                      Ctrl+Shift+Z      redo
Ctrl+S           save                      Ctrl+Shift+D      duplicate the bid
Ctrl+Shift+S     save as                   F5                read prices and rules again
Ctrl+J           jobs of the library       Ctrl+Shift+J      save as a new job
Ctrl+K           confirm what is copied    Ctrl+Shift+K      confirm all of it
Ctrl+T           take off a list           Ctrl+E            documents
Ctrl+Q           quit                      Ctrl+Shift+E      open their folder

Ctrl+1 … Ctrl+6  Points, Site, Box, Equipment, Job, Terms
Ctrl+PgDn, PgUp  next box, box before      Ctrl+B            add a box
Alt+1 … Alt+9    take an alternative       Ctrl+Shift+B      double the box
F8               next question             F1                guide
Shift+Escape     stop looking for alternatives and steps
Ctrl+I           where the value under the cursor comes from, with the row of its default
F6               next column; in a narrow window what is asked or what is built

In a grid
Return, arrows   move                      F2 or typing      edit
Ctrl+C           copy                      Ctrl+Shift+C      copy with headings
Ctrl+V           paste                     Ctrl+D            fill down
Delete           empty                     Ctrl+Minus        remove rows
+ and -          on a count: one more, one less

In a list
Return           take it, go there, why    Ctrl+Left, Right  sort by another column
Ctrl+Up, Down    upwards, downwards        a heading         the same by the mouse

In the drawing
Arrows           from device to device     R                 parts in its place
Return           what may be done with it  D                 door or plate
+ and -          zoom                      0                 fit

On a take-off
Return           take the proposal         Ctrl+Shift+A      take every proposal
Ctrl+Return      take into the bid         Escape            back to the bid)";

constexpr const char* licences = R"(Libraries used and their licences

wxWidgets        wxWindows Library Licence 3.1
GTK, GLib        LGPL 2.1 or later
SQLite           public domain
SQLiteCpp        MIT
libxlsxwriter    BSD 2-clause
libzip           BSD 3-clause
expat            MIT
nlohmann-json    MIT
CLI11            BSD 3-clause
fmt              MIT

All parts, makers, clients and prices that come with the program are invented.)";

void show_text(wxWindow& parent, const wxString& title, const char* name, const char* text) {
    if (wxWindow* open = wxWindow::FindWindowByName(title, &parent)) {
        open->Show();
        return open->Raise();
    }
    auto* frame = new wxFrame(&parent, wxID_ANY, title + " - Backplate", wxDefaultPosition,
                              parent.FromDIP(wxSize(790, 700)),
                              wxDEFAULT_FRAME_STYLE | wxFRAME_FLOAT_ON_PARENT, title);
    auto* page = new wxTextCtrl(frame, wxID_ANY, wxString::FromUTF8(text), wxDefaultPosition,
                                wxDefaultSize, wxTE_MULTILINE | wxTE_READONLY | wxBORDER_NONE);
    page->SetFont(wxFont(wxFontInfo(page->GetFont().GetPointSize()).Family(wxFONTFAMILY_TELETYPE)));
    page->SetMargins(parent.FromDIP(14), parent.FromDIP(12));
    name_control(*page, name, title.utf8_string());
    frame->Bind(wxEVT_CHAR_HOOK, [frame](wxKeyEvent& event) {
        if (event.GetKeyCode() == WXK_ESCAPE)
            frame->Close();
        else
            event.Skip();
    });
    page->SetInsertionPoint(0);
    frame->CentreOnParent();
    frame->Show();
    page->SetFocus();
}

} // namespace

void show_guide(wxWindow& parent) { show_text(parent, "Guide", "guide", guide); }

void show_keys(wxWindow& parent) { show_text(parent, "Keys", "keys", key_list); }

void show_about(wxWindow& parent) {
    wxAboutDialogInfo about;
    about.SetName("Backplate");
    about.SetVersion(program_version());
    about.SetDescription("Sizes and prices control cabinets, offline.\nAn estimate, not a design.");
    about.SetLicence(licences);
    wxAboutBox(about, &parent);
}

} // namespace backplate
