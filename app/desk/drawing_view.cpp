#include "app/desk/drawing_view.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include <wx/dcclient.h>
#include <wx/graphics.h>
#include <wx/settings.h>

#include "app/desk/accessible.h"
#include "reports/drawing/paint.h"
#include "reports/drawing/views.h"

namespace backplate {
namespace {

constexpr double step_of_zoom = 1.2;
constexpr double most_zoom = 30;

} // namespace

DrawingView::DrawingView(wxWindow* parent, Calls calls)
    : wxWindow(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxWANTS_CHARS),
      calls_(std::move(calls)) {
    SetBackgroundStyle(wxBG_STYLE_PAINT);
    name_control(*this, "drawing", "The panel, drawn to scale");
    bind_events();
    bind_pointer();
}

void DrawingView::bind_events() {
    Bind(wxEVT_PAINT, [this](wxPaintEvent&) { paint_scene(); });
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        Refresh();
        event.Skip();
    });
    Bind(wxEVT_KEY_DOWN, [this](wxKeyEvent& event) {
        switch (event.GetKeyCode()) {
        case WXK_RIGHT:
        case WXK_DOWN: return step(1);
        case WXK_LEFT:
        case WXK_UP: return step(-1);
        case WXK_RETURN: return choose(calls_.chosen);
        case WXK_TAB:
            Navigate(event.ShiftDown() ? wxNavigationKeyEvent::IsBackward
                                       : wxNavigationKeyEvent::IsForward);
            return;
        default: event.Skip();
        }
    });
    Bind(wxEVT_CHAR, [this](wxKeyEvent& event) {
        if (event.GetUnicodeKey() == '+') return zoom(step_of_zoom);
        if (event.GetUnicodeKey() == '-') return zoom(1 / step_of_zoom);
        if (event.GetUnicodeKey() == '0') return fit();
        if (event.GetUnicodeKey() == 'r' || event.GetUnicodeKey() == 'R')
            return choose(calls_.replace);
        if (event.GetUnicodeKey() == 'd' || event.GetUnicodeKey() == 'D') return turn(!door_);
        event.Skip();
    });
}

void DrawingView::bind_pointer() {
    Bind(wxEVT_MOUSEWHEEL, [this](wxMouseEvent& event) {
        const wxPoint at = event.GetPosition();
        const wxSize size = GetClientSize();
        const double by = event.GetWheelRotation() > 0 ? step_of_zoom : 1 / step_of_zoom;
        // what lies under the pointer stays there
        const wxPoint from(at.x - size.x / 2 - shift_.x, at.y - size.y / 2 - shift_.y);
        zoom(by);
        shift_.x -= static_cast<int>(std::lround(from.x * (by - 1)));
        shift_.y -= static_cast<int>(std::lround(from.y * (by - 1)));
    });
    Bind(wxEVT_LEFT_DCLICK, [this](wxMouseEvent&) { fit(); });
    Bind(wxEVT_LEFT_DOWN, [this](wxMouseEvent& event) {
        dragged_from_ = event.GetPosition();
        SetFocus();
    });
    Bind(wxEVT_LEFT_UP, [this](wxMouseEvent& event) {
        const std::string device = device_at(event.GetPosition());
        if (event.GetPosition() != dragged_from_ || device.empty()) return;
        mark(device);
        choose(calls_.chosen);
    });
    Bind(wxEVT_MOTION, [this](wxMouseEvent& event) {
        if (!event.Dragging()) return mark(device_at(event.GetPosition()));
        shift_ += event.GetPosition() - dragged_from_;
        dragged_from_ = event.GetPosition();
        Refresh();
    });
}

const BoxResult* DrawingView::box_shown() const {
    if (!answer_ || !answer_->estimate || box_ >= answer_->estimate->boxes.size()) return nullptr;
    return &answer_->estimate->boxes[box_];
}

void DrawingView::show(std::shared_ptr<const Answer> answer, std::size_t box) {
    if (answer && answer_ && box == box_ && answer->estimate == answer_->estimate) return;
    if (box != box_) fit();
    answer_ = std::move(answer);
    box_ = box;
    make_scene();
    mark("");
}

/// The door may be looked at where something stands in it.
void DrawingView::make_scene() {
    const BoxResult* shown = box_shown();
    has_door_ = shown && std::ranges::any_of(shown->layout.devices, [](const auto& each) {
                    return each.face == Face::door;
                });
    door_ = door_ && has_door_;
    scene_ = {};
    if (shown) {
        ViewStyle style;
        style.inch = answer_->estimate->request.inch;
        scene_ = (door_ ? door_scene : panel_scene)(*answer_->estimate, box_, style);
    }
    calls_.moved();
    Refresh();
}

void DrawingView::turn(bool door) {
    if (door == door_) return;
    door_ = door;
    make_scene();
}

void DrawingView::fit() {
    factor_ = 1;
    shift_ = {};
    Refresh();
}

void DrawingView::zoom(double factor) {
    factor_ = std::clamp(factor_ * factor, 1 / most_zoom, most_zoom);
    Refresh();
}

double DrawingView::shown_scale() const {
    const wxSize size = GetClientSize();
    if (scene_.width <= 0 || scene_.height <= 0) return 1;
    return std::min(size.x / scene_.width, size.y / scene_.height) * factor_ * 0.98;
}

/// What an empty sheet means, in its middle.
void DrawingView::paint_nothing(wxGraphicsContext& graphics) const {
    const wxString words =
        box_shown() ? "Nothing builds this: no panel to draw" : "The panel is drawn here";
    graphics.SetFont(GetFont(), wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    double width = 0, height = 0;
    graphics.GetTextExtent(words, &width, &height);
    const wxSize size = GetClientSize();
    graphics.DrawText(words, (size.x - width) / 2, (size.y - height) / 2);
}

void DrawingView::paint_scene() {
    wxPaintDC dc(this);
    const std::unique_ptr<wxGraphicsContext> graphics(wxGraphicsContext::Create(dc));
    const wxSize size = GetClientSize();
    graphics->SetBrush(wxBrush(wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOX)));
    graphics->DrawRectangle(0, 0, size.x, size.y);
    if (scene_.shapes.empty()) return paint_nothing(*graphics);
    const double scale = shown_scale();
    graphics->Translate((size.x - scene_.width * scale) / 2 + shift_.x,
                        (size.y - scene_.height * scale) / 2 + shift_.y);
    const bool dark = wxSystemSettings::GetAppearance().IsDark();
    paint(scene_, dark ? dark_palette() : light_palette(), scale,
          static_cast<cairo_t*>(graphics->GetNativeContext()));
    graphics->SetBrush(*wxTRANSPARENT_BRUSH);
    graphics->SetPen(wxPen(wxSystemSettings::GetColour(wxSYS_COLOUR_HIGHLIGHT), FromDIP(3)));
    for (const Shape& shape : scene_.shapes)
        if (!marked_.empty() && shape.device == marked_ && shape.kind != Shape::Kind::text)
            graphics->DrawRectangle(shape.area.x * scale, shape.area.y * scale,
                                    shape.area.width * scale, shape.area.height * scale);
}

std::string DrawingView::device_at(const wxPoint& at) const {
    const double scale = shown_scale();
    const wxSize size = GetClientSize();
    const Shape* shape =
        pick(scene_, (at.x - (size.x - scene_.width * scale) / 2 - shift_.x) / scale,
             (at.y - (size.y - scene_.height * scale) / 2 - shift_.y) / scale);
    return shape ? shape->device : std::string();
}

void DrawingView::mark(const std::string& device) {
    if (device == marked_) return;
    marked_ = device;
    words_.clear();
    if (const BoxResult* shown = box_shown())
        for (const PlacedDevice& each : shown->layout.devices)
            if (!device.empty() && each.id == device) words_ = calls_.words(each);
    SetToolTip(wxString::FromUTF8(words_));
    describe_control(*this, words_);
    calls_.moved();
    Refresh();
}

wxPoint DrawingView::below_marked() const {
    const double scale = shown_scale();
    const wxSize size = GetClientSize();
    const auto shape = std::ranges::find_if(scene_.shapes, [&](const Shape& each) {
        return each.device == marked_ && each.kind != Shape::Kind::text;
    });
    if (marked_.empty() || shape == scene_.shapes.end()) return {size.x / 2, size.y / 2};
    const double x = (size.x - scene_.width * scale) / 2 + shift_.x + shape->area.x * scale;
    const double y = (size.y - scene_.height * scale) / 2 + shift_.y +
                     (shape->area.y + shape->area.height) * scale;
    return {std::clamp(static_cast<int>(x), 0, size.x),
            std::clamp(static_cast<int>(y) + FromDIP(4), 0, size.y)};
}

/// The face of the device that is reached comes into view.
void DrawingView::step(int by) {
    const BoxResult* shown = box_shown();
    if (!shown || shown->layout.devices.empty()) return;
    const auto& devices = shown->layout.devices;
    const auto count = static_cast<int>(devices.size());
    const auto now = std::ranges::find(devices, marked_, &PlacedDevice::id);
    const int at =
        now == devices.end() ? (by > 0 ? -1 : count) : static_cast<int>(now - devices.begin());
    const PlacedDevice& reached = devices[static_cast<std::size_t>((at + by + count) % count)];
    turn(reached.face == Face::door);
    mark(reached.id);
}

void DrawingView::choose(const Chosen& how) const {
    const BoxResult* shown = box_shown();
    if (!shown) return;
    const auto& devices = shown->layout.devices;
    const auto now = std::ranges::find(devices, marked_, &PlacedDevice::id);
    if (now != devices.end()) how(static_cast<std::size_t>(now - devices.begin()));
}

} // namespace backplate
