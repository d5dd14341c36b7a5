#pragma once

#include <span>

#include "app/desk/entry_rows.h"
#include "app/desk/form_page.h"

namespace backplate {

/// Every field and list of a request that the window shows, page by page.
extern const EntryList points_list, assemblies_list, equipment_list, keep_list, replace_list;
std::span<const FieldGroup> site_groups();
std::span<const FieldGroup> box_groups();
std::span<const FieldGroup> job_groups();
std::span<const FieldGroup> terms_groups();
extern const FieldSpec title_field, client_field, due_field, box_quantity_field,
    box_controller_field;

} // namespace backplate
