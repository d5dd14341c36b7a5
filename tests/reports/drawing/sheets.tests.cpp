#include "reports/drawing/sheets.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <set>
#include <sstream>

#include <cairo.h>
#include <catch2/catch.hpp>

#include "pricing/price_job.h"
#include "reports/drawing/drawing_file.h"
#include "reports/drawing/paint.h"
#include "reports/drawing/text_size.h"
#include "reports/drawing/views.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

/// The demo requests, the panels worked by hand on the demo price book that can be built, and one
/// each of a client's box, an existing plate and a bare plate.
const std::vector<Estimate>& estimates() {
    static const std::vector<Estimate> made = [] {
        std::vector<Estimate> result;
        const PriceBook book = demo_book();
        const auto add = [&](const std::string& json) {
            Work work;
            result.push_back(price_job(request_of(json), book, starter_rules(), work));
        };
        for (const auto& entry :
             std::filesystem::directory_iterator(BACKPLATE_SOURCE_TREE "/demo/requests"))
            add(text_of(entry.path()));
        for (const auto& entry :
             std::filesystem::directory_iterator(BACKPLATE_SOURCE_TREE "/tests/worked_jobs"))
            if (std::filesystem::exists(entry.path() / "job.txt") &&
                entry.path().filename() != "not_buildable")
                add(text_of(entry.path() / "request.json"));
        const std::string points =
            points_text({{"DI", 30}, {"DO", 12}, {"AI_MA", 4}, {"DI_AC", 4}});
        add(box_request(points, R"(, "choices": {"enclosure": "by_client"})"));
        add(box_request(points, R"(, "choices": {"enclosure": "plate_only"})"));
        add(box_request(points, R"(, "choices": {"enclosure":
            {"existing_plate_mm": {"width": 700, "height": 900}}})"));
        return result;
    }();
    return made;
}

constexpr double slack = 1e-6;

using View = Scene (*)(const Estimate&, std::size_t, const ViewStyle&);

/// The ground that a text really takes within its area.
Area ground(const Shape& shape) {
    const double along = std::min(text_width(shape.text, shape.size, shape.bold),
                                  shape.upright ? shape.area.height : shape.area.width);
    const double across = shape.size * 0.95; // from the top of a capital to below the line
    const double room = shape.upright ? shape.area.height : shape.area.width;
    double from = 0;
    if (shape.align == Align::centre) from = (room - along) / 2;
    if (shape.align == Align::right) from = room - along;
    const Area& area = shape.area;
    if (shape.upright)
        return {area.x + (area.width - across) / 2, area.bottom() - from - along, across, along};
    return {area.x + from, area.y + (area.height - across) / 2, along, across};
}

bool overlap(const Area& a, const Area& b) {
    return a.x < b.right() - slack && b.x < a.right() - slack && a.y < b.bottom() - slack &&
           b.y < a.bottom() - slack;
}

std::vector<const Shape*> texts_of(const Scene& sheet) {
    std::vector<const Shape*> texts;
    for (const Shape& shape : sheet.shapes)
        if (shape.kind == Shape::Kind::text) texts.push_back(&shape);
    return texts;
}

bool is_device(const std::string& role) {
    return !std::set<std::string>{"accessory", "rail",   "duct",   "wire",     "enclosure",
                                  "plate",     "labels", "charge", "sundries", "door_part"}
                .count(role);
}

} // namespace

TEST_CASE("nothing leaves its sheet, no text is cut or written over another") {
    int sheets = 0, texts = 0;
    for (const Estimate& estimate : estimates()) {
        REQUIRE(estimate.buildable);
        for (const Scene& sheet : drawing_sheets(estimate, true)) {
            CAPTURE(estimate.request.title, sheet.title);
            ++sheets;
            for (const Shape& shape : sheet.shapes) {
                CAPTURE(shape.text, shape.area.x, shape.area.y, shape.area.width);
                const double left = std::min(shape.area.x, shape.area.right());
                const double top = std::min(shape.area.y, shape.area.bottom());
                CHECK(left >= 7);
                // what is drawn keeps out of the column of facts; the frame alone spans both
                const double split = sheet.width - 8 - 118,
                             right = left + std::abs(shape.area.width);
                if (shape.area.width < sheet.width - 17)
                    CHECK((right <= split + slack || left >= split - slack));
                CHECK(top >= 7);
                CHECK(std::max(shape.area.x, shape.area.right()) <= sheet.width - 7);
                CHECK(std::max(shape.area.y, shape.area.bottom()) <= sheet.height - 7);
            }
            const auto all = texts_of(sheet);
            for (std::size_t i = 0; i < all.size(); ++i) {
                const double room = all[i]->upright ? all[i]->area.height : all[i]->area.width;
                CAPTURE(all[i]->text, all[i]->size);
                CHECK(text_width(all[i]->text, all[i]->size, all[i]->bold) <= room + slack);
                CHECK(all[i]->size >= 0.9);
                for (std::size_t j = 0; j < i; ++j)
                    if (overlap(ground(*all[i]), ground(*all[j])))
                        FAIL_CHECK("over '" << all[j]->text << "'");
            }
            texts += static_cast<int>(all.size());
        }
    }
    std::cout << "drawing: " << sheets << " sheets judged with " << texts << " texts\n";
    CHECK(sheets >= 80);
    CHECK(texts >= 5000);
}

TEST_CASE("few modules stand side by side on their sheet, in letters as large as it allows") {
    int judged = 0;
    for (const Estimate& estimate : estimates())
        for (const Scene& sheet : drawing_sheets(estimate, false)) {
            if (sheet.title.find("modules and channels") == std::string::npos) continue;
            std::set<double> columns, sizes;
            std::size_t cards = 0;
            for (const Shape& shape : sheet.shapes)
                if (shape.kind == Shape::Kind::box && shape.tone == Tone::platform) {
                    ++cards;
                    columns.insert(shape.area.x);
                    sizes.insert(shape.area.height);
                }
            CAPTURE(sheet.title, cards);
            CHECK(columns.size() >= std::min<std::size_t>(cards, 3));
            REQUIRE(sizes.size() == 1);
            if (cards <= 6) CHECK(*sizes.begin() > 10); // larger letters than on a full sheet
            ++judged;
        }
    CHECK(judged >= 18);
}

TEST_CASE("every device of the bill is drawn or named as not drawn, once each") {
    int judged = 0;
    for (const Estimate& estimate : estimates())
        for (std::size_t at = 0; at < estimate.boxes.size(); ++at) {
            const BoxResult& box = estimate.boxes[at];
            std::map<std::string, std::int64_t> placed;
            std::set<std::string> ids, shown;
            for (const PlacedDevice& device : box.layout.devices) {
                ++placed[device.part.empty() ? device.text : device.part];
                CHECK(ids.insert(device.id).second);
            }
            for (const BillLine& line : estimate.bill) {
                if (line.box != box.name || !is_device(line.role) || !line.charge.empty()) continue;
                if (line.unit != "piece" || (line.part.empty() && line.role != "equipment" &&
                                             line.role != "free_issue" && line.role != "assembly"))
                    continue;
                CAPTURE(box.name, line.part, line.description, line.role);
                const auto& asked = estimate.request.boxes.at(at).equipment;
                if (std::any_of(asked.begin(), asked.end(), [&](const Equipment& each) {
                        return each.where == "outside" && each.text == line.description;
                    }))
                    continue; // nothing of it stands in the box
                CHECK(placed[line.part.empty() ? line.description : line.part] == line.quantity);
                ++judged;
            }
            for (const View view : {View{&panel_scene}, View{&door_scene}, View{&depth_scene}})
                for (const Shape& shape : view(estimate, at, {}).shapes)
                    if (!shape.device.empty()) shown.insert(shape.device);
            for (const PlacedDevice& device : box.layout.devices) {
                CAPTURE(box.name, device.id, device.part);
                CHECK((shown.count(device.id) == 1 || !device.placed));
            }
        }
    std::cout << "drawing: " << judged << " lines of bills judged\n";
    CHECK(judged >= 100);
}

TEST_CASE("dimensions are those of the parts, and a device is picked where it stands") {
    const PriceBook book = demo_book();
    int boxes = 0;
    for (const Estimate& estimate : estimates())
        for (std::size_t at = 0; at < estimate.boxes.size(); ++at) {
            const BoxResult& box = estimate.boxes[at];
            const Scene scene = panel_scene(estimate, at);
            std::multiset<std::string> dimensions;
            for (const Shape& shape : scene.shapes)
                if (shape.kind == Shape::Kind::text && shape.tone == Tone::dimension)
                    dimensions.insert(shape.text);
            const Part* part = book.find(box.enclosures.front().part);
            if (part && part->plate_width_mm) {
                CHECK(dimensions.count(number_text(*part->plate_width_mm)) >= 1);
                CHECK(dimensions.count(number_text(*part->plate_height_mm)) >= 1);
                const int side_by_side = box.enclosures.front().quantity;
                std::string width = number_text(part->width_mm.value_or(0));
                if (side_by_side > 1)
                    width = std::to_string(side_by_side) + " × " + width + " = " +
                            number_text(side_by_side * part->width_mm.value_or(0));
                if (part->width_mm) CHECK(dimensions.count(width) >= 1);
                if (part->height_mm) CHECK(dimensions.count(number_text(*part->height_mm)) >= 1);
                ++boxes;
            }
            for (const Shape& shape : scene.shapes) {
                if (shape.device.empty() || shape.kind != Shape::Kind::box) continue;
                const Shape* found = pick(scene, shape.area.x + shape.area.width / 2,
                                          shape.area.y + shape.area.height / 2);
                REQUIRE(found);
            }
            for (const PlacedDevice& device : box.layout.devices)
                if (const Part* own = book.find(device.part); own && own->width_mm > 0) {
                    CHECK(device.width_mm == *own->width_mm);
                    CHECK(device.height_mm == own->height_mm.value_or(0));
                }
        }
    CHECK(boxes >= 6);
}

TEST_CASE("the loads of the 24 V channels are the load of the supply, within every rating") {
    int judged = 0;
    for (const Estimate& estimate : estimates())
        for (const BoxResult& box : estimate.boxes) {
            std::vector<double> sums(box.supplies.size());
            for (const DistributedGroup& group : box.distribution) {
                double own = 0;
                for (const DistributedLoad& load : group.loads) own += load.current.value;
                if (group.supply < sums.size()) sums[group.supply] += own;
                if (!group.id.empty()) CHECK(own <= group.rated.value + 1e-6);
            }
            if (box.supplies.empty() || box.distribution.empty()) continue;
            const std::size_t at = static_cast<std::size_t>(&box - estimate.boxes.data());
            const double future = 1 + estimate.request.boxes.at(at).choices.future_load.fraction();
            for (std::size_t i = 0; i < sums.size(); ++i)
                if (box.supplies[i].group != "other_voltage")
                    CHECK(sums[i] * future ==
                          Approx(box.supplies[i].load_all_on.value).epsilon(1e-6));
            ++judged;
        }
    CHECK(judged >= 6);
}

TEST_CASE("what the font takes is never more than what the scene allows for") {
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 8, 8);
    cairo_t* context = cairo_create(surface);
    int judged = 0;
    for (const Scene& sheet : drawing_sheets(estimates().front(), false))
        for (const Shape* shape : texts_of(sheet)) {
            CAPTURE(shape->text);
            CHECK(measured_width(shape->text, shape->size, shape->bold, context) <=
                  text_width(shape->text, shape->size, shape->bold) * 1.005 + 0.01);
            ++judged;
        }
    cairo_destroy(context);
    cairo_surface_destroy(surface);
    CHECK(judged >= 100);
}

TEST_CASE("equal sheets make equal files") {
    const auto sheets = drawing_sheets(estimates().front(), false);
    CHECK(png_bytes(sheets, 40) == png_bytes(sheets, 40));
    const auto folder = std::filesystem::temp_directory_path() / "backplate-drawing-test";
    std::filesystem::create_directories(folder);
    const std::string one = folder / "one.pdf", two = folder / "two.pdf", svg = folder / "one.svg";
    write_drawing(sheets, "title", Date::of(2026, 11, 24), one);
    write_drawing(sheets, "title", Date::of(2026, 11, 24), two);
    write_drawing(sheets, "title", Date::of(2026, 11, 24), svg);
    CHECK(text_of(one).size() > 1000);
    CHECK((text_of(one) == text_of(two)));
    CHECK(text_of(svg).ends_with("</svg>\n"));
    CHECK_THROWS(write_drawing(sheets, "title", Date{}, folder / "drawing.docx"));
    std::filesystem::remove_all(folder);
}

TEST_CASE("what nothing builds has no sheets") {
    Estimate estimate;
    estimate.buildable = false;
    CHECK(drawing_sheets(estimate, false).empty());
    CHECK(panel_scene(estimate, 0).shapes.empty());
}
