#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "app/desk/desk_state.h"
#include "pricing/job/estimate.h"

namespace backplate {

using TextRows = std::vector<std::vector<std::string>>;

/// Amounts and physics as the window shows them: group blanks, the user's decimal mark, the units
/// of the job (mm and °C, or inches and °F).
class FigureText {
public:
    explicit FigureText(char decimal_mark, bool inch = false) : mark_(decimal_mark), inch_(inch) {}

    bool inch() const { return inch_; }

    std::string money(Money amount, int digits) const;
    std::string number(double value, int places) const;
    std::string hours(Hours hours) const;                     ///< to tenths of an hour
    std::string temperature(Celsius value, int places) const; ///< with its unit
    /// "800 × 1000 × 300 mm": the sides that are given.
    std::string size(std::initializer_list<double> sides_mm) const;

private:
    std::string marked(std::string text) const;
    char mark_;
    bool inch_;
};

TextRows module_rows(const BoxResult& box, const PriceBook& prices);
/// signal, used, required, fitted, spare achieved in percent of used
TextRows point_rows(const Estimate& estimate, const std::string& box, const FigureText& text);
/// pieces, part, description, net of one box
TextRows bill_rows(const Estimate& estimate, const std::string& box, const FigureText& text);
std::string supply_figure(const BoxResult& box, const FigureText& text);
std::string supply_detail(const BoxResult& box, const FigureText& text);
std::string heat_figure(const BoxResult& box, const FigureText& text);
std::string heat_detail(const BoxResult& box, const FigureText& text);
std::string enclosure_figure(const BoxResult& box, const FigureText& text); ///< part and size
std::string enclosure_size(const BoxResult& box, const FigureText& text);
std::string enclosure_detail(const BoxResult& box, const FigureText& text);
std::string incoming_figure(const BoxResult& box, const FigureText& text);
std::string wiring_figure(const BoxResult& box);
/// A device in its box: "A3: VC-204, Digital inputs, 16 · 12.0 mm wide · 1.9 W · 88.00 EUR". What
/// is not known is left out; the heat is its own, channels apart.
std::string device_words(const Estimate& estimate, const std::string& box,
                         const PlacedDevice& device, const Inputs& inputs, const FigureText& text);

/// From the costs to the price; what is nothing is left out. Cells: name, amount.
TextRows build_up_rows(const PriceResult& price, const FigureText& text);
/// activity, hours, cost; summed over the boxes, the sum last
TextRows labour_rows(const Estimate& estimate, const FigureText& text);
Hours labour_hours(const Estimate& estimate);
std::string delivery_figure(const Estimate& estimate);

/// A JSON pointer for a reader, counted from 1: "box 1, points 2, count".
std::string place_words(const std::string& pointer);

/// What is unclear, gravest first: gravity, what, in words; beside each the pointer it is about.
struct Doubts {
    TextRows rows;
    std::vector<std::string> pointers;
};
Doubts doubts_of(const DeskState& state);

} // namespace backplate
