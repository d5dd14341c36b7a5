#include <algorithm>

#include "pricing/panel/layout.h"

namespace backplate {
namespace {

/// Fills shelves from the top left; a shelf is as high as its highest device.
class Shelves {
public:
    Shelves(double width, double top, double bottom, double margin, double gap)
        : right_(width - margin), bottom_(bottom), left_(margin), gap_(gap), x_(margin), y_(top) {}

    bool put(PlacedDevice& device) {
        if (x_ > left_ && x_ + device.width_mm > right_) close();
        if (x_ + device.width_mm > right_ || y_ + device.height_mm > bottom_) return false;
        device.placed = true;
        device.x_mm = x_;
        device.y_mm = y_;
        x_ += device.width_mm + gap_;
        shelf_.push_back(&device);
        height_ = std::max(height_, device.height_mm);
        return true;
    }
    /// The shelf is full: it moves to the middle of the door.
    void close() {
        for (PlacedDevice* device : shelf_) device->x_mm += (right_ - (x_ - gap_)) / 2;
        shelf_.clear();
        if (height_ > 0) y_ += height_ + gap_;
        x_ = left_;
        height_ = 0;
    }

private:
    double right_, bottom_, left_, gap_, x_, y_, height_ = 0;
    std::vector<PlacedDevice*> shelf_;
};

bool in_door(const PlacedDevice& device) { return device.face == Face::door; }
bool is_fan(const PlacedDevice& device) { return device.kind == "cooling"; }

/// A device that states no width is as wide as it is high.
void fill_width(PlacedDevice& device) {
    if (device.width_mm > 0 || device.height_mm <= 0) return;
    device.width_mm = device.height_mm;
    device.round = true;
}

/// Fans side by side at the lower edge; the same height stays free above for their outlets.
double place_fans(std::vector<PlacedDevice>& devices, double width, double height, double margin,
                  double gap) {
    double x = margin, highest = 0;
    for (PlacedDevice& device : devices) {
        if (!in_door(device) || !is_fan(device)) continue;
        fill_width(device);
        device.round = false;
        const bool fits = x + device.width_mm <= width - margin &&
                          2 * (device.height_mm + margin) + gap <= height;
        if (!fits) {
            device.placed = false;
            continue;
        }
        device.placed = true;
        device.x_mm = x;
        device.y_mm = height - margin - device.height_mm;
        x += device.width_mm + gap;
        highest = std::max(highest, device.height_mm);
    }
    return highest;
}

} // namespace

void place_in_door(std::vector<PlacedDevice>& devices, double door_width_mm, double door_height_mm,
                   const RoomRules& rules) {
    const double margin = rules.door_margin_mm ? rules.door_margin_mm->number() : 0;
    const double gap = rules.door_gap_mm ? rules.door_gap_mm->number() : 0;
    const double fans = place_fans(devices, door_width_mm, door_height_mm, margin, gap);
    const double edge = fans > 0 ? margin + fans + gap : margin;
    Shelves shelves(door_width_mm, edge, door_height_mm - edge, margin, gap);
    std::vector<PlacedDevice*> order;
    for (PlacedDevice& device : devices)
        if (in_door(device) && !is_fan(device)) order.push_back(&device);
    std::stable_sort(order.begin(), order.end(), [](const PlacedDevice* a, const PlacedDevice* b) {
        return a->height_mm > b->height_mm;
    });
    double height = -1;
    for (PlacedDevice* device : order) {
        fill_width(*device);
        if (device->height_mm != height) shelves.close();
        height = device->height_mm;
        if (device->height_mm <= 0 || !shelves.put(*device)) device->placed = false;
    }
    shelves.close();
}

void place_in_doors(std::vector<PlacedDevice>& devices, int doors, double door_width_mm,
                    double door_height_mm, const RoomRules& rules) {
    int cooling = 0;
    for (PlacedDevice& device : devices)
        if (device.kind == "cooling") device.enclosure = cooling++ % doors;
    for (int door = 0; door < doors; ++door) {
        std::vector<PlacedDevice*> own;
        std::vector<PlacedDevice> asked;
        for (PlacedDevice& device : devices) {
            if (is_fan(device) ? device.enclosure != door : device.placed) continue;
            own.push_back(&device);
            asked.push_back(device);
        }
        place_in_door(asked, door_width_mm, door_height_mm, rules);
        for (std::size_t i = 0; i < own.size(); ++i) {
            *own[i] = asked[i];
            if (!is_fan(asked[i]) && asked[i].placed) own[i]->enclosure = door;
        }
    }
}

} // namespace backplate
