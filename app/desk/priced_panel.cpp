#include "app/desk/priced_panel.h"

#include <utility>

#include <wx/notebook.h>
#include <wx/settings.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/answer_text.h"
#include "app/desk/difference_columns.h"
#include "app/desk/heading.h"
#include "app/desk/lists_page.h"
#include "app/desk/price_bar.h"
#include "app/desk/price_text.h"
#include "app/desk/steps_view.h"
#include "app/desk/wrapped_text.h"

namespace backplate {
namespace {

void set_text(wxStaticText& line, const std::string& text) {
    const wxString words = wxString::FromUTF8(text);
    if (line.GetLabelText() == words) return;
    line.SetLabelText(words);
    line.SetToolTip(words);
}

FigureText text_for(const DeskState& state) {
    const Estimate* estimate = state.estimate();
    return FigureText(state.decimal_mark, estimate && estimate->request.inch);
}

} // namespace

PricedPanel::PricedPanel(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    make_head(rows);
    make_book(rows);
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(8)));
    SetSizer(margin);
}

void PricedPanel::make_head(wxSizer* rows) {
    const auto band = wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(4));
    price_ = new wxStaticText(this, wxID_ANY, "No price");
    price_->SetFont(price_->GetFont().Bold().Scaled(2.2F));
    name_control(*price_, "price", "Price");
    flash_ = std::make_unique<Flash>(*price_);
    rows->Add(price_, wxSizerFlags().Expand());
    notes_ = make_muted(this, "");
    name_control(*notes_, "price_notes", "About the price");
    rows->Add(notes_, wxSizerFlags().Expand());
    change_ =
        new wxStaticText(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize, wxST_ELLIPSIZE_END);
    name_control(*change_, "change", "What the last change did");
    rows->Add(change_, band);
    bar_ = new PriceBar(this);
    rows->Add(bar_, band);
    even_ = new wxStaticText(this, wxID_ANY, "");
    enough_ = new wxStaticText(this, wxID_ANY, "");
    name_control(*even_, "even", "Price that is as likely too low as too high");
    name_control(*enough_, "enough", "Price that is enough four times in five");
    rows->Add(even_, wxSizerFlags().Expand());
    rows->Add(enough_, band);
    lines_ = new FigureLines(
        this, {{"hours", "Hours"}, {"delivery", "Delivery"}},
        [this](std::size_t line) { state_.why(line == 0 ? "/labour" : "/delivery"); });
    rows->Add(lines_, band);
}

void PricedPanel::add_page(const char* title, const std::function<void(ListsPage*)>& fill) {
    auto* page = new ListsPage(book_);
    fill(page);
    book_->AddPage(page, title);
}

void PricedPanel::make_book(wxSizer* rows) {
    book_ = new wxNotebook(this, wxID_ANY);
    name_control(*book_, "price_pages", "More about the price");
    const auto all = wxSizerFlags(1).Expand();
    add_page("Alternatives", [&](ListsPage* page) {
        alternatives_ =
            new RowList(page, "alternatives", "Alternatives",
                        difference_columns({{"Alt", 28, true}, {"What"}}), Sorting::rows);
        page->add(alternatives_, all);
        alternative_ = new WrappedText(page, "alternative", "The alternative chosen");
        page->add(alternative_, wxSizerFlags().Border(wxALL, FromDIP(4)));
    });
    add_page("Steps", [&](ListsPage* page) {
        steps_ = new StepsView(page);
        page->add(steps_, all);
    });
    add_figure_pages();
    bind_lists();
    rows->Add(book_, all);
}

void PricedPanel::add_figure_pages() {
    const auto all = wxSizerFlags(1).Expand();
    add_page("Build-up", [&](ListsPage* page) {
        build_up_ = new RowList(page, "build_up", "Build-up of the price",
                                {{"Build-up"}, {"Amount", 120, true}});
        page->add(build_up_, all);
    });
    add_page("Hours", [&](ListsPage* page) {
        const auto columns = [](const char* what) {
            return std::vector<ListColumn>{{what}, {"Hours", 72, true}, {"Cost", 110, true}};
        };
        classes_ = new RowList(page, "classes", "Hours by class", columns("Class"),
                               Sorting::rows_but_last);
        labour_ = new RowList(page, "labour", "Hours by activity", columns("Activity"),
                              Sorting::rows_but_last);
        page->add(classes_, all);
        page->add(labour_, all);
    });
    add_page("Ratios", [&](ListsPage* page) {
        ratios_ = new RowList(page, "ratios", "Ratios",
                              {{"Ratio"}, {"Value", 92, true}, {"Usual", 110, true}, {"", 76}},
                              Sorting::rows);
        page->add(ratios_, all);
    });
}

void PricedPanel::bind_lists() {
    alternatives_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent& event) {
        take(static_cast<std::size_t>(alternatives_->row_at(event.GetIndex())));
    });
    alternatives_->Bind(wxEVT_LIST_ITEM_SELECTED, [this](wxListEvent& event) {
        explain_alternative(alternatives_->row_at(event.GetIndex()));
    });
    build_up_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent&) { state_.why("/price"); });
    labour_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent&) { state_.why("/labour"); });
    ratios_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent& event) {
        state_.why("/ratios/" + std::to_string(ratios_->row_at(event.GetIndex())));
    });
}

std::string PricedPanel::price_text() const { return price_->GetLabelText().utf8_string(); }

std::string PricedPanel::notes_text() const {
    const std::string notes = notes_->GetLabelText().utf8_string();
    const std::string change = change_->GetLabelText().utf8_string();
    return change.empty() ? notes : notes + " · " + change;
}

const std::vector<std::string>& PricedPanel::step_words() const { return steps_->words(); }

void PricedPanel::take(std::size_t number) {
    if (!state_.good || !state_.good->alternatives || state_.stale()) return;
    const auto& all = state_.good->alternatives->alternatives;
    if (number >= all.size()) return;
    Node request = *state_.session.request();
    if (apply_change(request, all[number].taken_by)) { // boxes without names of their own
        request = state_.good->estimate->request.filled;
        apply_change(request, all[number].taken_by);
    }
    state_.refused.clear();
    state_.session.replace(std::move(request));
    state_.changed();
}

/// What the newest answer changed; what comes later in the same generation changes nothing.
void PricedPanel::note_change() {
    if (shown_ == state_.good) return;
    const auto before = std::exchange(shown_, state_.good);
    if (before && shown_ && before->generation == shown_->generation) return;
    compared_ = before && shown_;
    changed_ = compared_ ? change_words(*before->estimate, *shown_->estimate, text_for(state_))
                         : std::string();
}

void PricedPanel::show_price(const Estimate* estimate) {
    const FigureText text = text_for(state_);
    note_change();
    std::string price = "No price";
    std::string notes;
    const auto say = [&](const std::string& words) {
        notes += (notes.empty() ? "" : " · ") + words;
    };
    if (estimate && estimate->price)
        price = text.money(estimate->price->price, estimate->price->digits) + " " +
                estimate->price->currency;
    if (!estimate) say("Type the first points into the empty row, as 48 di");
    if (estimate && estimate->demo_data) say("demo data");
    if (estimate && !estimate->buildable) say("nothing in the price book builds this");
    if (state_.stale()) say("before the faults below");
    const bool other = compared_ && price_text() != price;
    set_text(*price_, price);
    if (other) flash_->start();
    set_text(*notes_, notes);
    describe_control(*price_, changed_);
    set_text(*change_, changed_.empty() ? "" : "Last change: " + changed_);
    price_->SetForegroundColour(wxSystemSettings::GetColour(
        state_.stale() ? wxSYS_COLOUR_GRAYTEXT : wxSYS_COLOUR_WINDOWTEXT));
}

void PricedPanel::show_alternatives(const FigureText& text) {
    const Alternatives* found = state_.good ? state_.good->alternatives.get() : nullptr;
    alternatives_->set_rows(found ? alternative_rows(*found, text, !state_.good->looking)
                                  : TextRows{});
    if (!state_.good)
        alternative_->show("");
    else if (!state_.good->further_error.empty())
        alternative_->show(state_.good->further_error);
    else if (found && state_.good->looking && alternatives_->chosen() < 0)
        alternative_->show(std::to_string(found->alternatives.size()) +
                           (state_.stopped == state_.asked
                                ? " found before the search was stopped; F5 looks again"
                                : " so far, looking for more … Shift+Escape stops"));
    else if (!found && state_.stopped == state_.asked)
        alternative_->show("The search was stopped; F5 looks again");
    else if (!found)
        alternative_->show("Looking for alternatives … Shift+Escape stops");
    else
        explain_alternative(alternatives_->chosen());
}

void PricedPanel::explain_alternative(long row) {
    const Alternatives* found = state_.good ? state_.good->alternatives.get() : nullptr;
    if (!found) return;
    const auto index = static_cast<std::size_t>(row);
    if (row >= 0 && index < found->alternatives.size())
        alternative_->show(alternative_words(found->alternatives[index], *found, text_for(state_)));
    else
        alternative_->show(none_chosen_words(*found));
}

void PricedPanel::show_steps(const FigureText& text) {
    const Estimate* estimate = state_.estimate();
    const bool there = estimate && estimate->price && state_.box < estimate->boxes.size();
    steps_->show(state_.good ? state_.good->steps.get() : nullptr,
                 there ? estimate->boxes[state_.box].name : std::string(), text,
                 there ? estimate->price->digits : 2,
                 !there                           ? "No steps"
                 : state_.stopped == state_.asked ? "The search was stopped; F5 looks again"
                                                  : "Looking for steps …");
}

void PricedPanel::show_lists(const Estimate* estimate, const FigureText& text) {
    const bool priced = estimate && estimate->price;
    build_up_->set_rows(priced ? build_up_rows(*estimate->price, text) : TextRows{});
    classes_->set_rows(estimate ? class_rows(*estimate, text) : TextRows{});
    labour_->set_rows(estimate ? labour_rows(*estimate, text) : TextRows{});
    ratios_->set_rows(estimate ? ratio_rows(*estimate, text) : TextRows{});
    for (RowList* list : {alternatives_, build_up_, classes_, labour_, ratios_})
        list->set_stale(state_.stale());
}

void PricedPanel::show() {
    const FigureText text = text_for(state_);
    const Estimate* estimate = state_.estimate();
    const bool priced = estimate && estimate->price;
    show_price(estimate);
    for (wxWindow* each : {static_cast<wxWindow*>(bar_), static_cast<wxWindow*>(even_),
                           static_cast<wxWindow*>(enough_)})
        each->Show(priced);
    bar_->show(priced ? price_shares(*estimate) : std::vector<PriceShare>(), text,
               priced ? estimate->price->digits : 2);
    set_text(*even_, priced ? even_words(*estimate->price, text) : std::string());
    set_text(*enough_, priced ? enough_words(*estimate->price, text) : std::string());
    lines_->set_lines({{priced ? text.hours(labour_hours(*estimate)) + " h" : "–", ""},
                       {estimate ? delivery_figure(*estimate) : "–", ""}},
                      compared_);
    lines_->set_stale(state_.stale());
    show_lists(estimate, text);
    show_alternatives(text);
    show_steps(text);
    Layout();
}

} // namespace backplate
