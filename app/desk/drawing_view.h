#pragma once

#include <functional>
#include <memory>
#include <string>

#include <wx/panel.h>

#include "app/engine_thread.h"
#include "reports/drawing/scene.h"

namespace backplate {

/// The panel of a box, drawn to scale. The wheel zooms about the pointer, dragging moves, a double
/// click or 0 fits; hovering names a device, choosing one calls `chosen` with its place in the
/// layout. Plus and minus zoom, the arrows go from device to device, Return chooses.
class DrawingView : public wxPanel {
public:
    DrawingView(wxWindow* parent, std::function<void(std::size_t)> chosen);

    /// `answer`: whose panel is drawn; null: nothing.
    void show(std::shared_ptr<const Answer> answer, std::size_t box);
    void fit();
    void zoom(double factor);
    /// The device marked, in words; empty: none.
    const std::string& words() const { return words_; }

private:
    void bind_events();
    void bind_pointer();
    void paint_scene();
    void mark(const std::string& device);
    void step(int by);
    void choose();
    std::string device_at(const wxPoint& at) const;
    double shown_scale() const;

    std::function<void(std::size_t)> chosen_;
    std::shared_ptr<const Answer> answer_;
    std::size_t box_ = 0;
    Scene scene_;
    double factor_ = 1; ///< against the one that fits
    wxPoint shift_;     ///< of the scene, in pixels
    wxPoint dragged_from_;
    std::string marked_, words_;
};

} // namespace backplate
