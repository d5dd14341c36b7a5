#pragma once

#include <functional>
#include <memory>
#include <string>

#include <wx/window.h>

#include "app/engine_thread.h"
#include "reports/drawing/scene.h"

class wxGraphicsContext;

namespace backplate {

/// The panel of a box, drawn to scale. The wheel zooms about the pointer, dragging moves, a double
/// click or 0 fits; hovering marks a device, choosing one calls `chosen` with its place in the
/// layout. Plus and minus zoom, the arrows go from device to device, Return chooses, R asks
/// what may stand in its place, D turns between the plate and the door, Tab leaves.
class DrawingView : public wxWindow {
public:
    using Chosen = std::function<void(std::size_t)>;
    struct Calls {
        Chosen chosen, replace;
        /// A device in words, for its tool tip and whoever listens; of the box in view.
        std::function<std::string(const PlacedDevice&)> words;
        std::function<void()> moved; ///< another device is marked, or another face in view
    };
    DrawingView(wxWindow* parent, Calls calls);

    /// `answer`: whose panel is drawn; null: nothing.
    void show(std::shared_ptr<const Answer> answer, std::size_t box);
    void fit();
    void zoom(double factor);
    bool door() const { return door_; }                   ///< the door is in view, not the plate
    bool drawn() const { return !scene_.shapes.empty(); } ///< there is a panel to look at
    bool has_door() const { return has_door_; }           ///< something stands in it
    void turn(bool door);
    /// Below the device marked, in pixels of the window: where its menu opens.
    wxPoint below_marked() const;
    /// The device marked, in words; empty: none.
    const std::string& words() const { return words_; }

private:
    void bind_events();
    void bind_pointer();
    void make_scene();
    const BoxResult* box_shown() const;
    void paint_scene();
    void paint_nothing(wxGraphicsContext& graphics) const;
    void mark(const std::string& device);
    void step(int by);
    void choose(const Chosen& how) const;
    std::string device_at(const wxPoint& at) const;
    double shown_scale() const;

    Calls calls_;
    std::shared_ptr<const Answer> answer_;
    std::size_t box_ = 0;
    bool door_ = false, has_door_ = false;
    Scene scene_;
    double factor_ = 1; ///< against the one that fits
    wxPoint shift_;     ///< of the scene, in pixels
    wxPoint dragged_from_;
    std::string marked_, words_;
};

} // namespace backplate
