#include "reports/workbook/text_width.h"

#include <array>

namespace backplate {
namespace {

// Widths of ' ' to '~' in thousandths of the size: the sans-serif metrics that Helvetica, Arial and
// their free equivalents share (Adobe Core 14 AFM; read from the free URW++ font's AFM file).
constexpr std::array<std::int16_t, 95> widths{
    278, 278, 355, 556, 556, 889, 667, 222, 333, 333, 389, 584, 278, 333,  278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667,  611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 222, 556, 556, 500, 556, 556, 278,  556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,  500, 334, 260, 334, 584};
constexpr int usual_width = 600; ///< of a letter beyond ASCII

int width_of(unsigned char first) {
    if (first < 0x20) return 0;
    return first < 0x7F ? widths[first - 0x20] : usual_width;
}

bool continues(unsigned char byte) { return (byte & 0xC0) == 0x80; }

} // namespace

int lines_of(std::string_view text, double points, double size) {
    const double room = points / size * 1000;
    int lines = 1;
    double used = 0, word = 0;
    for (const char letter : text) {
        const auto byte = static_cast<unsigned char>(letter);
        if (continues(byte)) continue;
        if (byte == '\n') {
            ++lines;
            used = word = 0;
            continue;
        }
        const int width = width_of(byte);
        used += width;
        word = byte == ' ' ? 0 : word + width;
        if (used <= room || byte == ' ') continue;
        ++lines;
        used = word = word <= room ? word : width; // a word longer than the line is broken
    }
    return lines;
}

} // namespace backplate
