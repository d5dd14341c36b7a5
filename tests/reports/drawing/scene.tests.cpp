#include "reports/drawing/scene.h"

#include <cmath>

#include <catch2/catch.hpp>

#include "reports/drawing/palette.h"
#include "reports/drawing/text_size.h"

using namespace backplate;

TEST_CASE("the topmost device under a point is picked") {
    Scene scene;
    scene.box(Tone::plate, {0, 0, 100, 100}, 1);
    scene.box(Tone::platform, {10, 10, 20, 20}, 1, true, "A1");
    scene.box(Tone::other, {20, 10, 20, 20}, 1, true, "K1");
    REQUIRE(pick(scene, 15, 15));
    CHECK(pick(scene, 15, 15)->device == "A1");
    CHECK(pick(scene, 25, 15)->device == "K1");
    CHECK_FALSE(pick(scene, 60, 60));
    CHECK_FALSE(pick(scene, 40, 15)); // the right edge belongs to what comes after
}

TEST_CASE("a scene keeps its proportions in another one") {
    Scene inner, sheet;
    inner.box(Tone::mains, {100, 50, 18, 90}, 2, true, "Q1");
    sheet.place(inner, 10, 20, 0.2);
    REQUIRE(sheet.shapes.size() == 1);
    CHECK(sheet.shapes[0].area == Area{30, 30, 18 * 0.2, 18});
    CHECK(sheet.shapes[0].pen == Approx(0.4));
}

TEST_CASE("texts are shortened to whole characters and wrapped at blanks") {
    CHECK(shortened("plain", 2, 100) == "plain");
    const std::string cut = shortened("Überlänge äöü", 2, 8);
    CHECK(text_width(cut, 2) <= 8);
    CHECK(cut.ends_with("…"));
    CHECK(shortened("x", 2, 0.1).empty());
    for (const std::string& line : wrapped("one two three four five six seven", 2, 14))
        CHECK(text_width(line, 2) <= 14);
    CHECK(wrapped("", 2, 10).empty());
}

// Contrast: WCAG 2.1, 1.4.3, 4.5 to 1 for text. Deuteranopia and protanopia: matrices of Viénot,
// Brettel and Mollon 1999 on linear light, from memory; the distance asked is ours.
namespace {

double contrast(const Colour& a, const Colour& b) {
    const double high = std::max(a.luminance(), b.luminance());
    return (high + 0.05) / (std::min(a.luminance(), b.luminance()) + 0.05);
}

/// What is left of a colour without the second kind of cones: red and green fall together.
std::array<double, 2> without_green(const Colour& colour) {
    return {0.29 * colour.red + 0.71 * colour.green, colour.blue};
}

double apart(const Look& a, const Look& b) {
    const auto x = without_green(a.fill), y = without_green(b.fill);
    return std::hypot(x[0] - y[0], x[1] - y[1]);
}

} // namespace

TEST_CASE("texts stand out from their ground, and bands differ without colour") {
    for (const Palette* palette : {&print_palette(), &light_palette(), &dark_palette()}) {
        for (const Look& look : palette->looks) CHECK(contrast(look.text, look.fill) >= 4.5);
        const std::array bands{Tone::mains, Tone::supply,    Tone::platform,
                               Tone::other, Tone::terminals, Tone::door};
        for (std::size_t i = 0; i < bands.size(); ++i)
            for (std::size_t j = 0; j < i; ++j) {
                const Look &a = palette->of(bands[i]), &b = palette->of(bands[j]);
                CAPTURE(i, j);
                CHECK((a.pattern != b.pattern || apart(a, b) >= 0.06));
            }
    }
}
