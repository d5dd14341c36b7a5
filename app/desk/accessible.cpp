#include "app/desk/accessible.h"

#include <gtk/gtk.h>
#include <wx/window.h>

namespace backplate {

void name_control(wxWindow& control, const std::string& name, const std::string& label) {
    control.SetName(wxString::FromUTF8(name));
    AtkObject* accessible = gtk_widget_get_accessible(control.GetHandle());
    atk_object_set_accessible_id(accessible, name.c_str());
    atk_object_set_name(accessible, label.c_str());
}

std::string given_name(const wxWindow* part) {
    for (; part; part = part->GetParent()) {
        const char* id = atk_object_get_accessible_id(gtk_widget_get_accessible(part->GetHandle()));
        if (id && *id) return id;
    }
    return {};
}

void describe_control(wxWindow& control, const std::string& content) {
    atk_object_set_description(gtk_widget_get_accessible(control.GetHandle()), content.c_str());
}

} // namespace backplate
