#include "app/list_points.h"

#include <algorithm>
#include <map>

#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr int most_points = 100'000;
constexpr std::string_view request_format = "backplate-request/1";

Node& boxes_of(Node& request, const std::string& name) {
    if (request.is(Node::Kind::null)) {
        request = Node::make_object();
        request.member("format") = Node::make_text(std::string(request_format));
        request.member("boxes") = Node::make_list();
    }
    const Node* format = request.find("format");
    if (!format || format->text != request_format)
        throw BadInput(name + ": is no request; expected \"format\": \"" +
                       std::string(request_format) + "\"");
    Node& boxes = request.member("boxes");
    const bool all_objects = std::ranges::all_of(
        boxes.items, [](const Node& box) { return box.is(Node::Kind::object); });
    if (!boxes.is(Node::Kind::list) || !all_objects)
        throw BadInput(name + ": /boxes: is no list of boxes; expected [ { \"points\": … } ]");
    return boxes;
}

/// The name of the box at `index`, CP1, CP2 … where it bears none.
std::string box_name(const Node& boxes, std::size_t index) {
    const Node* name = boxes.items[index].find("name");
    return name && name->is(Node::Kind::text) ? name->text : "CP" + std::to_string(index + 1);
}

/// The box of a panel, added where none bears its name; the empty panel is the only box or CP1.
Node& box_of(Node& boxes, const std::string& panel, WrittenPoints::BoxPoints& written) {
    const bool only_box = panel.empty() && boxes.items.size() == 1;
    written.box = only_box ? box_name(boxes, 0) : panel.empty() ? "CP1" : panel;
    for (std::size_t i = 0; i < boxes.items.size(); ++i)
        if (box_name(boxes, i) == written.box) return boxes.items[i];
    written.is_new = true;
    Node& box = boxes.items.emplace_back(Node::make_object());
    box.member("name") = Node::make_text(written.box);
    return box;
}

bool same_line(const TakenPoint& a, const TakenPoint& b) {
    return a.signal == b.signal && a.wiring == b.wiring && a.volts == b.volts && a.hart == b.hart &&
           a.isolated == b.isolated;
}

void put_text(Node& object, const char* key, const std::string& text) {
    if (!text.empty()) object.member(key) = Node::make_text(text);
}

Node listed(const TakenPoint& point, const std::string& list_file) {
    Node entry = Node::make_object();
    put_text(entry, "tag", point.tag);
    put_text(entry, "text", point.text);
    put_text(entry, "device", point.device);
    Node& origin = entry.member("origin") = Node::make_object();
    origin.member("file") = Node::make_text(list_file);
    put_text(origin, "sheet", point.sheet);
    origin.member("row") = Node::make_number(std::to_string(point.row));
    return entry;
}

using Line = std::vector<TakenPoint>; ///< points of one line of the request

int count_of(const std::vector<TakenPoint>& points) {
    int count = 0;
    for (const TakenPoint& point : points) count += point.count;
    return count;
}

Node line_of(const Line& points, const std::string& list_file) {
    const TakenPoint& first = points.front();
    Node line = Node::make_object();
    line.member("signal") = Node::make_text(first.signal);
    line.member("count") = Node::make_number(std::to_string(count_of(points)));
    put_text(line, "wiring", first.wiring);
    if (!first.volts.empty()) line.member("volts") = Node::make_number(first.volts);
    if (first.isolated) {
        Node& needs = line.member("needs") = Node::make_object();
        needs.member("isolated") = Node::make_flag(true);
    }
    if (first.hart) line.member("note") = Node::make_text("HART");
    Node& list = line.member("list") = Node::make_list();
    for (const TakenPoint& point : points)
        for (int i = 0; i < point.count; ++i) list.items.push_back(listed(point, list_file));
    return line;
}

Node lines_of(const std::vector<TakenPoint>& points, const std::string& list_file) {
    std::vector<Line> lines;
    for (const TakenPoint& point : points) {
        const auto line = std::ranges::find_if(
            lines, [&](const Line& other) { return same_line(other.front(), point); });
        if (line == lines.end())
            lines.push_back({point});
        else
            line->push_back(point);
    }
    const auto first_of_signal = [&](const Line& line) {
        return std::ranges::find(points, line.front().signal, &TakenPoint::signal) - points.begin();
    };
    std::ranges::stable_sort(lines, {}, first_of_signal);
    Node nodes = Node::make_list();
    for (const Line& line : lines) nodes.items.push_back(line_of(line, list_file));
    return nodes;
}

struct PanelPoints {
    std::string panel;
    std::vector<TakenPoint> points;
};

/// The points by panel, panels in the order of the list.
std::vector<PanelPoints> by_panel(const std::vector<TakenPoint>& points) {
    std::vector<PanelPoints> panels;
    std::map<std::string, std::size_t> places;
    for (const TakenPoint& point : points) {
        const auto [found, is_new] = places.try_emplace(point.panel, panels.size());
        if (is_new) panels.push_back({point.panel, {}});
        panels[found->second].points.push_back(point);
    }
    return panels;
}

} // namespace

WrittenPoints write_points(Node& request, const std::string& name, const Takeoff& takeoff,
                           const std::string& list_file) {
    Node& boxes = boxes_of(request, name);
    WrittenPoints result;
    if (count_of(takeoff.points) > most_points)
        throw BadInput(name + ": the list has " + std::to_string(count_of(takeoff.points)) +
                       " points; expected at most 100000 for a request");
    const auto panels = by_panel(takeoff.points);
    for (const auto& [panel, points] : panels) {
        if (panel.empty() && panels.size() > 1) {
            for (const TakenPoint& point : points) result.rows_without_panel.push_back(point.row);
            continue;
        }
        WrittenPoints::BoxPoints written;
        box_of(boxes, panel, written).member("points") = lines_of(points, list_file);
        written.points = count_of(points);
        result.boxes.push_back(written);
    }
    return result;
}

} // namespace backplate
