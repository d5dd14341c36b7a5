#include "app/desk/replace_window.h"

#include <algorithm>
#include <tuple>

#include <wx/panel.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/difference_columns.h"
#include "app/desk/heading.h"
#include "app/desk/replace_text.h"

namespace backplate {

ReplaceWindow::ReplaceWindow(wxWindow* parent, DeskState& state)
    : SideWindow(parent, state, "In place of - Backplate", wxSize(820, 560)) {
    make_lists();
}

ReplaceWindow::~ReplaceWindow() {
    thread_.request_stop();
    if (thread_.joinable()) thread_.join(); // it speaks to this window to the last
}

void ReplaceWindow::make_lists() {
    wxPanel* panel = ground();
    auto* rows = new wxBoxSizer(wxVERTICAL);
    const auto band = wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(4));
    heading_ = make_subheading(panel, "");
    rows->Add(heading_, band);
    list_ = new RowList(panel, "replacements", "Parts in its place",
                        difference_columns({{"Part", 90}, {"What"}}), Sorting::rows);
    rows->Add(list_, wxSizerFlags(3).Expand().Border(wxBOTTOM, FromDIP(4)));
    status_ = make_muted(panel, "");
    name_control(*status_, "replace_status", "How far the search is");
    rows->Add(status_, band);
    facts_ = new RowList(panel, "part_facts", "Facts of the part",
                         {{"Fact"}, {"Now", 285}, {"Instead", 285}});
    rows->Add(facts_, wxSizerFlags(2).Expand());
    lay_out(rows);
    list_->Bind(wxEVT_LIST_ITEM_SELECTED, [this](wxListEvent&) { show_facts(); });
    list_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent&) { take(); });
}

void ReplaceWindow::ask(const std::string& part) {
    if (!state_.good || state_.stale()) return;
    base_ = state_.good;
    box_ = state_.box;
    part_ = part;
    found_.clear();
    looking_ = true;
    const Part* known = state_.inputs->prices->find(part);
    heading_->SetLabelText(wxString::FromUTF8("In place of " + part +
                                              (known ? ", " + known->description : std::string())));
    show_found();
    show_facts();
    bring_up();
    list_->SetFocus();
    look(++search_);
}

void ReplaceWindow::look(int search) {
    thread_ =
        std::jthread([this, search, base = base_, inputs = state_.inputs, box = box_, part = part_,
                      request = state_.session.request()](const std::stop_token& stop) {
            Work work;
            work.stop = stop;
            std::string fault;
            try {
                find_replacements(*request, *base->estimate, box, part, *inputs->prices,
                                  *inputs->rules, work, [&](const Replacement& found) {
                                      CallAfter([this, search, found] { receive(search, found); });
                                  });
            } catch (const Stopped&) {
                return;
            } catch (const std::exception& failure) {
                fault = failure.what();
            }
            CallAfter([this, search, fault] { finish(search, fault); });
        });
}

void ReplaceWindow::receive(int search, const Replacement& found) {
    if (search != search_) return;
    const long row = list_->chosen();
    const auto index = static_cast<std::size_t>(row);
    const std::string chosen = row >= 0 && index < found_.size() ? found_[index].part : "";
    const auto rank = [](const Replacement& each) {
        return std::tuple(!each.buildable, each.price, each.part);
    };
    found_.insert(std::ranges::upper_bound(found_, rank(found), {}, rank), found);
    show_found();
    const auto again = std::ranges::find(found_, chosen, &Replacement::part);
    list_->choose(row <= 0 || again == found_.end() ? 0
                                                    : again - found_.begin()); // the best, else his
    show_facts();
}

void ReplaceWindow::finish(int search, const std::string& fault) {
    if (search != search_) return;
    looking_ = false;
    show_found();
    if (!fault.empty()) status_->SetLabelText(wxString::FromUTF8("✗ " + fault));
}

void ReplaceWindow::show_found() {
    const Estimate& estimate = *base_->estimate;
    const FigureText text(state_.decimal_mark, estimate.request.inch);
    list_->set_rows(replacement_rows(found_, *state_.inputs->prices,
                                     estimate.price ? estimate.price->digits : 2, text));
    std::string status =
        "Return takes the one chosen; the figures are differences of the whole job";
    if (looking_)
        status = "Looking: " + std::to_string(found_.size()) + " so far …";
    else if (found_.empty())
        status = "No other part of the price book may stand in its place";
    status_->SetLabelText(wxString::FromUTF8(status));
    state_.look();
}

void ReplaceWindow::show_facts() {
    const PriceBook& book = *state_.inputs->prices;
    const Part* part = book.find(part_);
    const auto index = static_cast<std::size_t>(std::max(0L, list_->chosen()));
    const Part* other = index < found_.size() ? book.find(found_[index].part) : nullptr;
    facts_->set_rows(part ? fact_rows(*part, other) : TextRows{});
}

void ReplaceWindow::take() {
    const auto index = static_cast<std::size_t>(std::max(0L, list_->chosen()));
    if (index >= found_.size() || !found_[index].buildable) return;
    const std::string by = found_[index].part;
    put_away();
    if (state_.asked != base_->generation) return;
    state_.session.replace(with_replacement(*state_.session.request(), box_, part_, by));
    state_.changed();
}

void ReplaceWindow::put_away() {
    ++search_;
    thread_.request_stop();
    looking_ = false;
    SideWindow::put_away();
}

void ReplaceWindow::follow() {
    if (IsShown() && base_ && state_.asked != base_->generation) put_away();
}

} // namespace backplate
