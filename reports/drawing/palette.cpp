#include "reports/drawing/palette.h"

#include <cmath>

namespace backplate {
namespace {

constexpr Colour hex(unsigned value) {
    return {((value >> 16) & 0xFF) / 255.0, ((value >> 8) & 0xFF) / 255.0, (value & 0xFF) / 255.0};
}

constexpr Look look(unsigned fill, unsigned line, unsigned text, Pattern pattern = Pattern::none) {
    return {hex(fill), hex(line), hex(text), pattern};
}

constexpr auto print_colours = Palette{{{
    look(0xF3B79A, 0x9A3B12, 0x000000, Pattern::falling), // mains: brick
    look(0xF8DE8B, 0x8A6A00, 0x000000, Pattern::rising),  // supply: straw
    look(0xBBD9EE, 0x1D5A8A, 0x000000),                   // platform: water
    look(0xD6EBD0, 0x2F6B3A, 0x000000, Pattern::dots),    // other 24 V: reed
    look(0xEDEDED, 0x5A5A5A, 0x000000),                   // terminals: stone
    look(0xE4D7EC, 0x5F3F78, 0x000000, Pattern::crossed), // door: heather
    look(0xFFFFFF, 0xFFFFFF, 0x000000),                   // paper
    look(0xFFFFFF, 0x000000, 0x000000),                   // ink
    look(0xFFFFFF, 0x8C8C8C, 0x4A4A4A),                   // faint
    look(0xFAFAFA, 0x000000, 0x000000),                   // box
    look(0xFFFFFF, 0x4A4A4A, 0x4A4A4A),                   // plate
    look(0xE2E2E2, 0x9A9A9A, 0x5A5A5A),                   // duct
    look(0xC8CDD2, 0x8A9096, 0x4A4A4A),                   // rail
    look(0xFFFFFF, 0x3F7F4C, 0x245C30, Pattern::falling), // room
    look(0xFFFFFF, 0x333333, 0x222222),                   // dimension
    look(0xE9EDF1, 0x7A858F, 0x000000),                   // heading
    look(0xFFF3E8, 0xA03C00, 0x8A2F00)                    // caution
}}};

constexpr auto light_colours = Palette{
    {{look(0xF0AE8E, 0x9A3B12, 0x1A1A1A, Pattern::falling),
      look(0xF5D779, 0x8A6A00, 0x1A1A1A, Pattern::rising), look(0xAFD2EA, 0x1D5A8A, 0x1A1A1A),
      look(0xCDE6C6, 0x2F6B3A, 0x1A1A1A, Pattern::dots), look(0xE6E6E6, 0x5A5A5A, 0x1A1A1A),
      look(0xDECFE8, 0x5F3F78, 0x1A1A1A, Pattern::crossed), look(0xF6F6F4, 0xF6F6F4, 0x1A1A1A),
      look(0xF6F6F4, 0x1A1A1A, 0x1A1A1A), look(0xF6F6F4, 0x909090, 0x555555),
      look(0xF0F0EE, 0x303030, 0x1A1A1A), look(0xFCFCFB, 0x606060, 0x505050),
      look(0xDEDEDC, 0x9A9A9A, 0x5A5A5A), look(0xC4C9CE, 0x8A9096, 0x4A4A4A),
      look(0xFCFCFB, 0x3F7F4C, 0x245C30, Pattern::falling), look(0xF6F6F4, 0x404040, 0x2A2A2A),
      look(0xE4E8EC, 0x7A858F, 0x1A1A1A), look(0xFFEBDA, 0xA03C00, 0x8A2F00)}}};

constexpr auto dark_colours = Palette{
    {{look(0x7C3B22, 0xF0A07C, 0xFFFFFF, Pattern::falling),
      look(0x6B5710, 0xF0D070, 0xFFFFFF, Pattern::rising), look(0x1F4A6B, 0x8CC4EC, 0xFFFFFF),
      look(0x2C4A30, 0x9CD6A4, 0xFFFFFF, Pattern::dots), look(0x4A4A4A, 0xC0C0C0, 0xFFFFFF),
      look(0x493A58, 0xCDB0E4, 0xFFFFFF, Pattern::crossed), look(0x1E1F21, 0x1E1F21, 0xE8E8E8),
      look(0x1E1F21, 0xE8E8E8, 0xE8E8E8), look(0x1E1F21, 0x7A7A7A, 0xB4B4B4),
      look(0x26282B, 0xD0D0D0, 0xE8E8E8), look(0x2C2E31, 0xA0A0A0, 0xC0C0C0),
      look(0x3A3D41, 0x70757A, 0xC0C0C0), look(0x565B61, 0x888E94, 0xE0E0E0),
      look(0x2C2E31, 0x7CC08A, 0xA8E0B4, Pattern::falling), look(0x1E1F21, 0xC8C8C8, 0xDCDCDC),
      look(0x33383D, 0x8A949E, 0xE8E8E8), look(0x4A2A14, 0xF0A060, 0xFFC090)}}};

double linear(double part) {
    return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

} // namespace

double Colour::luminance() const {
    return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
}

const Palette& print_palette() { return print_colours; }
const Palette& light_palette() { return light_colours; }
const Palette& dark_palette() { return dark_colours; }

} // namespace backplate
