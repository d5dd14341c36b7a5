#include "app/desk/price_bar.h"

#include <array>

#include <wx/dcclient.h>
#include <wx/settings.h>

#include "app/desk/accessible.h"

namespace backplate {
namespace {

constexpr int bar_height = 22;
constexpr int line_height = 19;
constexpr int gap = 5;

/// Hues that stay apart for the common forms of colour-blindness (the eight of Okabe and Ito,
/// 2008); drawn beside words, never instead of them.
const std::array<wxColour, 5>& share_colours() {
    static const std::array<wxColour, 5> colours{wxColour(0, 114, 178), wxColour(230, 159, 0),
                                                 wxColour(204, 121, 167), wxColour(86, 180, 233),
                                                 wxColour(0, 158, 115)};
    return colours;
}

} // namespace

PriceBar::PriceBar(wxWindow* parent) : wxPanel(parent) {
    SetMinSize(FromDIP(wxSize(200, bar_height + gap + 3 * line_height)));
    name_control(*this, "price_bar", "What the price is made of");
    Bind(wxEVT_PAINT, [this](wxPaintEvent&) {
        wxPaintDC dc(this);
        paint(dc);
    });
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        Refresh();
        event.Skip();
    });
}

void PriceBar::show(std::vector<PriceShare> shares, const FigureText& text, int digits) {
    shares_ = std::move(shares);
    amounts_.clear();
    sum_ = 0;
    std::string said;
    for (const PriceShare& share : shares_) sum_ += std::max(0.0, share.amount.number());
    for (const PriceShare& share : shares_) {
        const double part = sum_ > 0 ? 100 * share.amount.number() / sum_ : 0;
        const std::string amount =
            text.money(share.amount, digits) + "  " + text.number(part, 0) + " %";
        amounts_.push_back(wxString::FromUTF8(amount));
        said += (said.empty() ? "" : "; ") + share.name + " " + amount;
        for (const auto& [name, cut] : share.cuts)
            said += ", " + name + " " + text.money(cut, digits);
    }
    describe_control(*this, said);
    SetToolTip(wxString::FromUTF8(said));
    Refresh();
}

void PriceBar::paint(wxDC& dc) const {
    dc.SetFont(GetFont());
    if (shares_.empty() || sum_ <= 0) return;
    paint_bar(dc, GetClientSize().x);
    paint_legend(dc, GetClientSize().x);
}

void PriceBar::paint_bar(wxDC& dc, int width) const {
    double done = 0;
    const auto at = [&](double amount) { return static_cast<int>(width * amount / sum_); };
    for (std::size_t i = 0; i < shares_.size(); ++i) {
        const double amount = std::max(0.0, shares_[i].amount.number());
        dc.SetPen(*wxTRANSPARENT_PEN);
        dc.SetBrush(wxBrush(share_colours()[i]));
        dc.DrawRectangle(at(done), 0, at(done + amount) - at(done) - 1, FromDIP(bar_height));
        dc.SetPen(wxPen(*wxBLACK, 1));
        double cut_at = done;
        for (const auto& cut : shares_[i].cuts) {
            cut_at += cut.second.number();
            if (cut_at < done + amount - 0.01)
                dc.DrawLine(at(cut_at), FromDIP(bar_height) / 2, at(cut_at), FromDIP(bar_height));
        }
        done += amount;
    }
}

void PriceBar::paint_legend(wxDC& dc, int width) const {
    const int half = width / 2;
    dc.SetTextForeground(wxSystemSettings::GetColour(wxSYS_COLOUR_WINDOWTEXT));
    for (std::size_t i = 0; i < shares_.size(); ++i) {
        const int x = i % 2 == 0 ? 0 : half + FromDIP(6);
        const int y = FromDIP(bar_height + gap + line_height * static_cast<int>(i / 2));
        dc.SetPen(*wxTRANSPARENT_PEN);
        dc.SetBrush(wxBrush(share_colours()[i]));
        dc.DrawRectangle(x, y + FromDIP(4), FromDIP(10), FromDIP(10));
        dc.DrawText(wxString::FromUTF8(shares_[i].name), x + FromDIP(15), y);
        const wxSize size = dc.GetTextExtent(amounts_[i]);
        const int end = i % 2 == 0 ? half - FromDIP(6) : width;
        dc.DrawText(amounts_[i], end - size.x, y);
    }
}

} // namespace backplate
