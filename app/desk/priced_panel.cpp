#include "app/desk/priced_panel.h"

#include <utility>

#include <wx/settings.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/answer_text.h"
#include "app/desk/heading.h"

namespace backplate {

PricedPanel::PricedPanel(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    const auto band = wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(8));
    const auto list = wxSizerFlags(1).Expand().Border(wxBOTTOM, FromDIP(8));
    rows->Add(make_heading(this, "Priced"), wxSizerFlags().Expand());
    price_ = new wxStaticText(this, wxID_ANY, "–");
    price_->SetFont(price_->GetFont().Bold().Scaled(2.4F));
    name_control(*price_, "price", "Price");
    rows->Add(price_, wxSizerFlags().Expand());
    notes_ = make_muted(this, "");
    name_control(*notes_, "price_notes", "About the price");
    rows->Add(notes_, band);
    build_up_ = new RowList(this, "build_up", "Build-up of the price",
                            {{"Build-up"}, {"Amount", 110, true}});
    rows->Add(build_up_, list);
    hours_ = new wxStaticText(this, wxID_ANY, "");
    rows->Add(hours_, wxSizerFlags().Border(wxBOTTOM, FromDIP(4)));
    labour_ = new RowList(this, "labour", "Hours by activity",
                          {{"Activity"}, {"Hours", 72, true}, {"Cost", 100, true}});
    rows->Add(labour_, list);
    lines_ = new FigureLines(this, {{"range", "P50 / P80"}, {"delivery", "Delivery"}});
    rows->Add(lines_, wxSizerFlags().Expand());
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(10)));
    SetSizer(margin);
}

std::string PricedPanel::price_text() const { return price_->GetLabelText().utf8_string(); }
std::string PricedPanel::notes_text() const { return notes_->GetLabelText().utf8_string(); }

std::string PricedPanel::difference() {
    if (shown_ == state_.good) return difference_;
    const auto before = std::exchange(shown_, state_.good);
    difference_.clear();
    if (!before || !before->estimate->price || !shown_->estimate->price) return difference_;
    const PriceResult& old_price = *before->estimate->price;
    const PriceResult& price = *shown_->estimate->price;
    const Money change = price.price - old_price.price;
    if (price.currency == old_price.currency && !change.is_zero())
        difference_ = (change > Money() ? "+" : "") +
                      FigureText(state_.decimal_mark).money(change, price.digits) +
                      " by the last change";
    return difference_;
}

void PricedPanel::show_price(const Estimate* estimate) {
    const FigureText text(state_.decimal_mark);
    const std::string change = difference();
    std::string price = "–";
    std::string notes;
    if (estimate && estimate->price) {
        price = text.money(estimate->price->price, estimate->price->digits) + " " +
                estimate->price->currency;
    }
    const auto say = [&](const std::string& words) {
        if (!words.empty()) notes += (notes.empty() ? "" : " · ") + words;
    };
    if (estimate && estimate->demo_data) say("demo data");
    if (estimate) say("answer " + std::to_string(state_.good->generation));
    if (state_.stale()) say("before the faults below");
    say(change);
    price_->SetLabelText(wxString::FromUTF8(price));
    notes_->SetLabelText(wxString::FromUTF8(notes));
    notes_->SetToolTip(wxString::FromUTF8(notes));
    price_->SetForegroundColour(wxSystemSettings::GetColour(
        state_.stale() ? wxSYS_COLOUR_GRAYTEXT : wxSYS_COLOUR_WINDOWTEXT));
}

void PricedPanel::show() {
    const FigureText text(state_.decimal_mark);
    const Estimate* estimate = state_.estimate();
    show_price(estimate);
    build_up_->set_rows(estimate && estimate->price ? build_up_rows(*estimate->price, text)
                                                    : TextRows{});
    labour_->set_rows(estimate ? labour_rows(*estimate, text) : TextRows{});
    hours_->SetLabelText(wxString::FromUTF8(estimate && estimate->price
                                                ? text.hours(labour_hours(*estimate)) + " hours"
                                                : std::string()));
    lines_->set_lines(
        {{estimate && estimate->price ? range_figure(*estimate->price, text) : "–", ""},
         {estimate ? delivery_figure(*estimate) : "–", ""}});
    build_up_->set_stale(state_.stale());
    labour_->set_stale(state_.stale());
    lines_->set_stale(state_.stale());
    Layout();
}

} // namespace backplate
