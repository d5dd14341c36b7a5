#pragma once

#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/list_view.h"
#include "app/desk/row_list.h"

class wxChoice;
class wxGrid;
class wxStaticText;
class wxTextCtrl;

namespace backplate {

class PreviewTable;
class WrappedText;

/// The page on which a client's list is taken off: its rows as they stand, each with what became of
/// it; the open questions with their proposals; the counts; and the key that takes them into the
/// bid, in one step.
class TakeoffPage : public wxPanel {
public:
    /// `leave` is called when the page has nothing more to do.
    TakeoffPage(wxWindow* parent, DeskState& state, std::function<void()> leave);

    void open(const std::string& path);
    void accept_all();
    void take_into_bid();
    /// What the page shows, for tests.
    TextRows questions() const { return question_rows(groups_); }
    std::string words() const;
    std::string refused() const { return fault_; }
    bool reading() const { return reading_; }

private:
    void make_head(wxSizer* rows);
    void make_lists(wxSizer* rows);
    wxSizer* make_answers();
    wxSizer* make_keys();
    void read();
    void receive(std::uint64_t number, std::shared_ptr<const TakenList> list, std::string fault);
    void show();
    void show_sheet();
    void answer(ListAnswer answer);
    void answer_chosen(ListAnswer::Does does);
    void answer_typed();
    void choose_role(int column);
    void go_to_question(long number);

    DeskState& state_;
    std::function<void()> leave_;
    std::string path_, fault_;
    ListAnswers answers_;
    std::shared_ptr<const TakenList> list_;
    std::vector<QuestionGroup> groups_;
    std::uint64_t asked_ = 0;
    bool reading_ = false;
    wxStaticText *heading_ = nullptr, *outcome_ = nullptr, *advice_ = nullptr;
    WrappedText* whole_ = nullptr; ///< the question chosen, where the list cuts it
    wxChoice* sheets_ = nullptr;
    wxGrid* rows_ = nullptr;
    PreviewTable* table_ = nullptr;
    RowList *questions_ = nullptr, *counts_ = nullptr;
    wxTextCtrl* typed_ = nullptr;
    std::jthread thread_; ///< last: ends first
};

} // namespace backplate
