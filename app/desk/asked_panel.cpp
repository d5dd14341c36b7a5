#include "app/desk/asked_panel.h"

#include <algorithm>
#include <charconv>

#include <wx/button.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"

namespace backplate {
namespace {

using Kind = FieldSpec::Kind;

constexpr FieldSpec names[] = {
    {.name = "title", .label = "Job", .pointer = "/job/title"},
    {.name = "client", .label = "Client", .pointer = "/job/client"},
};

constexpr FieldSpec enquiry_fields[] = {
    {.name = "enquiry", .label = "Enquiry", .pointer = "/job/enquiry"},
    {.name = "due", .label = "Due", .pointer = "/job/due"},
};

constexpr FieldSpec number_field(const char* name, const char* label, const char* unit,
                                 const char* pointer) {
    return {.name = name,
            .label = label,
            .unit = unit,
            .pointer = pointer,
            .kind = Kind::number,
            .of_box = true};
}

constexpr FieldSpec word_field(const char* name, const char* label, const char* pointer,
                               const char* words) {
    return {.name = name,
            .label = label,
            .pointer = pointer,
            .kind = Kind::word,
            .of_box = true,
            .words = words};
}

/// The same cell as the field before; what the label does not say is spoken.
constexpr FieldSpec joined(FieldSpec spec, const char* spoken) {
    spec.joined = true;
    spec.spoken = spoken;
    return spec;
}

constexpr FieldSpec end_of_range(FieldSpec spec, int element) {
    spec.element = element;
    return spec;
}

constexpr FieldSpec needs_fields[] = {
    {.name = "spare_percent",
     .label = "Spare",
     .unit = "%",
     .pointer = "/spare/percent",
     .kind = Kind::number},
    number_field("room_percent", "Free rail", "%", "/choices/room_percent"),
    end_of_range(number_field("ambient_low", "Ambient", "", "/site/ambient_c"), 0),
    joined(end_of_range(number_field("ambient_high", "to", "°C", "/site/ambient_c"), 1),
           "Ambient, highest"),
    number_field("altitude", "Altitude", "m", "/site/altitude_m"),
    word_field("protection", "Protection", "/site/protection", "boxes[].site.protection"),
    word_field("mounting", "Mounting", "/site/mounting", "boxes[].site.mounting"),
    number_field("max_width", "At most", "", "/site/max_mm/width"),
    joined(number_field("max_height", "×", "", "/site/max_mm/height"), "Height at most"),
    joined(number_field("max_depth", "×", "mm", "/site/max_mm/depth"), "Depth at most"),
    number_field("supply_volts", "Mains", "V", "/site/supply/volts"),
};

/// How much of two pointers is the same, in characters; 0 unless one is the other's beginning.
std::size_t kinship(const std::string& one, const std::string& other) {
    const std::size_t shorter = std::min(one.size(), other.size());
    if (one.compare(0, shorter, other, 0, shorter) != 0) return 0;
    const std::string& longer = one.size() > other.size() ? one : other;
    return longer.size() == shorter || longer[shorter] == '/' ? shorter : 0;
}

std::optional<std::size_t> number_after(const std::string& pointer, const std::string& lead) {
    std::size_t number = 0;
    if (!pointer.starts_with(lead)) return std::nullopt;
    const char* first = pointer.data() + lead.size();
    const auto [end, fault] = std::from_chars(first, pointer.data() + pointer.size(), number);
    return fault == std::errc{} ? std::optional(number) : std::nullopt;
}

} // namespace

AskedPanel::AskedPanel(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    const auto band = wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(8));
    rows->Add(make_heading(this, "Asked"), band);
    add_fields(rows, names, 1);
    add_fields(rows, enquiry_fields, 2);
    boxes_ = new BoxBar(this, state);
    rows->Add(boxes_, band);
    add_points(rows);
    add_fields(rows, needs_fields, 2);
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(10)));
    SetSizer(margin);
}

/// The labels of each column stand in line.
void AskedPanel::add_fields(wxSizer* rows, std::span<const FieldSpec> specs, int cells_a_row) {
    auto* grid = new wxFlexGridSizer(2 * cells_a_row, FromDIP(wxSize(8, 5)));
    for (int cell = 0; cell < cells_a_row; ++cell)
        grid->AddGrowableCol(static_cast<std::size_t>(2 * cell + 1), 1);
    wxSizer* entries = nullptr;
    for (const FieldSpec& spec : specs) {
        wxSizer* label = entries;
        if (!spec.joined) {
            label = new wxBoxSizer(wxHORIZONTAL);
            entries = new wxBoxSizer(wxHORIZONTAL);
            grid->Add(label, wxSizerFlags().CenterVertical());
            grid->Add(entries, wxSizerFlags().Expand());
        }
        fields_.push_back(std::make_unique<Field>(this, label, entries, spec, state_));
    }
    rows->Add(grid, wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(8)));
}

void AskedPanel::add_points(wxSizer* rows) {
    points_ = new PointsGrid(this, state_);
    rows->Add(points_, wxSizerFlags(1).Expand());
    auto* keys = new wxBoxSizer(wxHORIZONTAL);
    auto* add =
        new wxButton(this, wxID_ANY, "Add row", wxDefaultPosition, wxDefaultSize, wxBU_EXACTFIT);
    auto* remove =
        new wxButton(this, wxID_ANY, "Remove row", wxDefaultPosition, wxDefaultSize, wxBU_EXACTFIT);
    name_control(*add, "add_row", "Add row");
    name_control(*remove, "remove_row", "Remove row");
    add->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { points_->go_to_new_row(); });
    remove->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { points_->remove_chosen_rows(); });
    keys->Add(add);
    keys->Add(remove, wxSizerFlags().Border(wxLEFT, FromDIP(6)));
    rows->Add(keys, wxSizerFlags().Border(wxTOP | wxBOTTOM, FromDIP(6)));
}

void AskedPanel::show() {
    for (const auto& field : fields_) field->show();
    boxes_->show();
    points_->show();
}

bool AskedPanel::focus_point(const std::string& pointer) {
    const auto row = number_after(pointer, state_.box_pointer() + "/points/");
    if (!row && pointer != state_.box_pointer() + "/points") return false;
    points_->go_to(static_cast<int>(row.value_or(0)), pointer.substr(pointer.rfind('/') + 1));
    return true;
}

bool AskedPanel::focus(const std::string& pointer) {
    if (const auto box = number_after(pointer, "/boxes/"); box && *box != state_.box) {
        state_.box = *box;
        state_.look();
    }
    if (focus_point(pointer)) return true;
    Field* nearest = nullptr;
    std::size_t most = 0;
    const auto consider = [&](Field& field) {
        const std::size_t shared = kinship(field.pointer(), pointer);
        if (shared <= most) return;
        most = shared;
        nearest = &field;
    };
    for (const auto& field : fields_) consider(*field);
    consider(boxes_->quantity());
    if (nearest) nearest->focus();
    return nearest != nullptr;
}

} // namespace backplate
