#include "app/desk/steps_view.h"

#include <algorithm>

#include <wx/dcbuffer.h>
#include <wx/settings.h>

#include "app/desk/accessible.h"
#include "reports/price_steps_text.h"

namespace backplate {
namespace {

constexpr int line_height = 40;
constexpr int label_width = 96;

} // namespace

StepsView::StepsView(wxWindow* parent)
    : wxScrolledWindow(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxVSCROLL) {
    SetBackgroundStyle(wxBG_STYLE_PAINT);
    SetScrollRate(0, FromDIP(line_height / 2));
    name_control(*this, "steps", "Steps of the price");
    Bind(wxEVT_PAINT, [this](wxPaintEvent&) {
        wxAutoBufferedPaintDC dc(this);
        dc.SetBackground(wxBrush(wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOX)));
        dc.Clear();
        DoPrepareDC(dc);
        paint(dc);
    });
}

void StepsView::show(const FoundSteps* steps, const std::string& box, const FigureText& text,
                     int digits, const std::string& waiting) {
    lines_.clear();
    words_.clear();
    waiting_ = wxString::FromUTF8(waiting);
    if (steps)
        for (const PriceSteps& each : steps->signals)
            if (each.box == box) add_line(each, text, digits);
    std::string said;
    for (const std::string& line : words_) said += line + "\n";
    describe_control(*this, said);
    SetToolTip(wxString::FromUTF8(said));
    SetVirtualSize(-1, FromDIP(line_height) * static_cast<int>(lines_.size()));
    Refresh();
}

void StepsView::add_line(const PriceSteps& steps, const FigureText& text, int digits) {
    Line line;
    line.signal = wxString::FromUTF8(steps.signal + " " + std::to_string(steps.used));
    line.looked_at = std::max(1, steps.looked_at);
    line.free_points = steps.free_points;
    std::string words = steps.signal + ": ";
    if (steps.free_points > 0) {
        words += std::to_string(steps.free_points) + " more without a step";
        if (steps.point_price) words += " at " + text.money(*steps.point_price, digits) + " each";
        line.note = wxString::FromUTF8(
            std::to_string(steps.free_points) + " free" +
            (steps.point_price ? ", " + text.money(*steps.point_price, digits) + " each" : ""));
    } else {
        words += "the next one is a step";
        line.note = "the next one is a step";
    }
    for (const PriceStep& step : steps.steps) {
        const auto difference = step.difference();
        const std::string amount =
            difference ? "+" + text.money(*difference, digits) : std::string("not built");
        const bool is_next = step.points == 1;
        if (is_next) line.note = wxString::FromUTF8("the next one: " + amount);
        line.marks.push_back({step.points, is_next ? wxString() : wxString::FromUTF8(amount)});
        words += "; " + std::to_string(step.points) + " more: " + amount + ", " +
                 step_text(step, steps.box);
    }
    lines_.push_back(std::move(line));
    words_.push_back(std::move(words));
}

void StepsView::paint(wxDC& dc) const {
    dc.SetFont(GetFont());
    dc.SetTextForeground(wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOXTEXT));
    if (lines_.empty()) dc.DrawText(waiting_, FromDIP(8), FromDIP(8));
    for (std::size_t i = 0; i < lines_.size(); ++i)
        paint_line(dc, lines_[i], FromDIP(line_height) * static_cast<int>(i), GetClientSize().x);
}

void StepsView::paint_line(wxDC& dc, const Line& line, int y, int width) const {
    const int left = FromDIP(label_width);
    const int length = std::max(FromDIP(60), width - left - FromDIP(16));
    const auto at = [&](int points) { return left + length * points / line.looked_at; };
    const int middle = y + FromDIP(28);
    dc.DrawText(line.signal, FromDIP(6), y + FromDIP(18));
    dc.SetPen(wxPen(wxSystemSettings::GetColour(wxSYS_COLOUR_BTNSHADOW), FromDIP(2)));
    dc.DrawLine(left, middle, at(line.looked_at), middle);
    dc.SetPen(wxPen(wxColour(0, 158, 115), FromDIP(6)));
    if (line.free_points > 0) dc.DrawLine(left, middle, at(line.free_points), middle);
    int text_end = left;
    if (!line.note.empty()) {
        dc.DrawText(line.note, left, y + FromDIP(4));
        text_end = left + dc.GetTextExtent(line.note).x + FromDIP(8);
    }
    for (const Mark& mark : line.marks) {
        const int x = at(mark.points);
        dc.SetPen(wxPen(wxColour(213, 94, 0), FromDIP(3)));
        dc.DrawLine(x, middle - FromDIP(6), x, middle + FromDIP(6));
        if (mark.amount.empty()) continue;
        const int extent = dc.GetTextExtent(mark.amount).x;
        const int text_at = std::max(text_end, std::min(x - extent / 2, left + length - extent));
        if (text_at > x + FromDIP(6) || text_at + extent > width) continue;
        dc.DrawText(mark.amount, text_at, y + FromDIP(4));
        text_end = text_at + extent + FromDIP(8);
    }
}

} // namespace backplate
