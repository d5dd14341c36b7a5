#include "app/desk/documents_dialog.h"

#include <wx/button.h>
#include <wx/checkbox.h>
#include <wx/dirdlg.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"

namespace backplate {

DocumentsDialog::DocumentsDialog(wxWindow* parent, const DeskState& state,
                                 const std::string& folder)
    : wxDialog(parent, wxID_ANY, "Documents - Backplate", wxDefaultPosition, wxDefaultSize,
               wxDEFAULT_DIALOG_STYLE | wxRESIZE_BORDER) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    make_boxes(rows, state);
    make_folder(rows, folder);
    rows->Add(make_muted(this, "Names are taken from the job's title. A file that is there stays; "
                               "the new one gets a number."),
              wxSizerFlags().Border(wxTOP | wxBOTTOM, FromDIP(8)));
    auto* keys = new wxBoxSizer(wxHORIZONTAL);
    auto* write = new wxButton(this, wxID_OK, "Write");
    name_control(*write, "write_documents", "Write the documents");
    keys->AddStretchSpacer();
    keys->Add(new wxButton(this, wxID_CANCEL, "Cancel"),
              wxSizerFlags().Border(wxRIGHT, FromDIP(6)));
    keys->Add(write);
    rows->Add(keys, wxSizerFlags().Expand());
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(12)));
    SetSizerAndFit(margin);
    write->SetDefault();
    write->SetFocus();
    CentreOnParent();
}

wxCheckBox* DocumentsDialog::add_box(wxSizer* rows, const char* name, const wxString& label,
                                     bool set) {
    auto* box = new wxCheckBox(this, wxID_ANY, label);
    name_control(*box, name, label.utf8_string());
    box->SetValue(set);
    rows->Add(box, wxSizerFlags().Border(wxBOTTOM, FromDIP(6)));
    return box;
}

void DocumentsDialog::make_boxes(wxSizer* rows, const DeskState& state) {
    const Estimate* estimate = state.estimate();
    const std::string stops =
        estimate ? stops_of(*estimate, *state.inputs->rules) : "the job has no price";
    draft_ = !stops.empty();
    workbook_ =
        add_box(rows, "with_workbook", "Workbook with costs, hours and basis (internal)", true);
    client_ =
        add_box(rows, "with_client",
                draft_ ? "Client edition, marked DRAFT on every page" : "Client edition", false);
    client_->Enable(estimate && estimate->price);
    if (draft_) {
        auto* why = make_muted(this, stops.substr(0, stops.find('\n')));
        why->SetToolTip(wxString::FromUTF8(stops));
        why->SetMinSize(FromDIP(wxSize(460, -1)));
        rows->Add(why, wxSizerFlags().Expand().Border(wxLEFT | wxBOTTOM, FromDIP(20)));
    }
    drawing_ =
        add_box(rows, "with_drawing",
                draft_ ? "Drawing (PDF), marked DRAFT on every page" : "Drawing (PDF)", false);
    drawing_->Enable(estimate && estimate->price);
    enquiry_ = add_box(rows, "with_enquiry", "Enquiry sheet for suppliers", false);
}

void DocumentsDialog::make_folder(wxSizer* rows, const std::string& folder) {
    auto* row = new wxBoxSizer(wxHORIZONTAL);
    row->Add(new wxStaticText(this, wxID_ANY, "Folder"),
             wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(6)));
    folder_ = new wxTextCtrl(this, wxID_ANY, wxString::FromUTF8(folder), wxDefaultPosition,
                             FromDIP(wxSize(380, -1)));
    name_control(*folder_, "folder", "Folder");
    row->Add(folder_, wxSizerFlags(1).CenterVertical());
    auto* choose = new wxButton(this, wxID_ANY, wxString::FromUTF8("Choose…"), wxDefaultPosition,
                                wxDefaultSize, wxBU_EXACTFIT);
    name_control(*choose, "choose_folder", "Choose a folder");
    choose->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) {
        wxDirDialog dialog(this, "Folder for the documents", folder_->GetValue());
        if (dialog.ShowModal() == wxID_OK) folder_->SetValue(dialog.GetPath());
    });
    row->Add(choose, wxSizerFlags().Border(wxLEFT, FromDIP(6)));
    rows->Add(row, wxSizerFlags().Expand());
}

DocumentWish DocumentsDialog::wish() const {
    return {folder_->GetValue().utf8_string(),
            workbook_->GetValue(),
            client_->GetValue(),
            enquiry_->GetValue(),
            drawing_->GetValue(),
            draft_};
}

} // namespace backplate
