#pragma once

#include <wx/dialog.h>

#include "app/desk/desk_state.h"
#include "app/documents.h"

class wxCheckBox;
class wxTextCtrl;

namespace backplate {

/// Which documents to write and where. Return writes; nothing is overwritten.
class DocumentsDialog : public wxDialog {
public:
    DocumentsDialog(wxWindow* parent, const DeskState& state, const std::string& folder);

    DocumentWish wish() const;

private:
    void make_folder(wxSizer* rows, const std::string& folder);
    void make_boxes(wxSizer* rows, const DeskState& state);
    wxCheckBox* add_box(wxSizer* rows, const char* name, const wxString& label, bool set);

    wxTextCtrl* folder_ = nullptr;
    wxCheckBox *workbook_ = nullptr, *client_ = nullptr, *enquiry_ = nullptr, *drawing_ = nullptr;
    bool draft_ = false; ///< a stop forbids the client's edition: it comes marked
};

} // namespace backplate
