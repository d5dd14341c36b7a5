#include "reports/drawing/text_size.h"

#include <algorithm>
#include <array>

namespace backplate {
namespace {

/// Advance of the characters from blank to tilde in thousandths of the size, and of those in bold.
/// Source: measured from the fonts DejaVu Sans and DejaVu Sans Bold 2.37 without hinting.
constexpr auto plain_widths = std::array<short, 95>{
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
    636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
    575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
    611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
    278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838};
constexpr auto bold_widths = std::array<short, 95>{
    348,  456, 521, 838, 696, 1002, 872, 306,  457, 457, 523, 838, 380, 415,  380, 365,
    696,  696, 696, 696, 696, 696,  696, 696,  696, 696, 400, 400, 838, 838,  838, 580,
    1000, 774, 762, 734, 830, 683,  683, 821,  837, 372, 372, 775, 637, 995,  837, 850,
    733,  850, 770, 720, 682, 812,  774, 1103, 771, 724, 725, 457, 365, 457,  838, 500,
    500,  675, 716, 593, 716, 678,  435, 716,  712, 343, 343, 665, 343, 1042, 712, 687,
    716,  716, 493, 595, 478, 712,  652, 924,  645, 652, 582, 712, 365, 712,  838};
constexpr int other_width = 1000;

bool begins_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) != 0x80; }

int width_of(char byte, bool bold) {
    const auto at = static_cast<unsigned char>(byte);
    if (at < 32 || at > 126) return other_width;
    return (bold ? bold_widths : plain_widths)[at - 32u];
}

} // namespace

double text_width(std::string_view text, double size, bool bold) {
    int sum = 0;
    for (const char byte : text)
        if (begins_character(byte)) sum += width_of(byte, bold);
    return sum * size / 1000;
}

std::string shortened(const std::string& text, double size, double width, bool bold) {
    constexpr double slack = 1e-6;
    if (text_width(text, size, bold) <= width + slack) return text;
    std::string result = text;
    while (!result.empty()) {
        while (!result.empty() && !begins_character(result.back())) result.pop_back();
        if (!result.empty()) result.pop_back();
        while (!result.empty() && result.back() == ' ') result.pop_back();
        if (text_width(result + "…", size, bold) <= width + slack) return result + "…";
    }
    return {};
}

std::vector<std::string> wrapped(const std::string& text, double size, double width) {
    std::vector<std::string> lines;
    std::string line;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string word = text.substr(at, end - at);
        at = end + 1;
        if (!line.empty() && text_width(line + " " + word, size) > width) {
            lines.push_back(std::move(line));
            line.clear();
        }
        line += (line.empty() ? "" : " ") + word;
    }
    if (!line.empty()) lines.push_back(std::move(line));
    for (std::string& each : lines) each = shortened(each, size, width);
    return lines;
}

} // namespace backplate
