#pragma once

#include <string>
#include <thread>
#include <vector>

#include "app/desk/row_list.h"
#include "app/desk/side_window.h"
#include "pricing/job/replacements.h"

class wxStaticText;

namespace backplate {

/// What may stand in the place of a part of the box in view, each with what the whole job then
/// costs, as the engine finds them; below it the facts of both. Return takes the one chosen, Escape
/// closes. A further change of the request closes it too.
class ReplaceWindow : public SideWindow {
public:
    ReplaceWindow(wxWindow* parent, DeskState& state);
    ~ReplaceWindow() override;

    void ask(const std::string& part);
    /// Closes where the figures in view are others than those it compares with.
    void follow();
    const std::string& part() const { return part_; }
    const RowList& list() const { return *list_; }
    bool looking() const { return looking_; }

private:
    void make_lists();
    void look(int search);
    void receive(int search, const Replacement& found);
    void finish(int search, const std::string& fault);
    void show_found();
    void show_facts();
    void take();
    void put_away() override;

    std::shared_ptr<const Answer> base_; ///< what is compared with
    std::string part_;
    std::size_t box_ = 0;
    std::vector<Replacement> found_; ///< what can be built first, by price
    int search_ = 0;                 ///< of the newest question
    bool looking_ = false;
    wxStaticText *heading_ = nullptr, *status_ = nullptr;
    RowList *list_ = nullptr, *facts_ = nullptr;
    std::jthread thread_;
};

} // namespace backplate
