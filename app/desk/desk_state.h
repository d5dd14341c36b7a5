#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>

#include "app/engine_thread.h"
#include "app/inputs.h"
#include "app/session.h"

namespace backplate {

/// What the panels of the window share. They read it in `show` and change it only through
/// `session` followed by `changed`.
struct DeskState {
    Session session;
    std::shared_ptr<const Inputs> inputs;
    std::shared_ptr<const Answer> answer; ///< newest; null before the first
    std::shared_ptr<const Answer> good;   ///< newest with an estimate; null before the first
    std::uint64_t stopped = 0;            ///< generation whose search the user stopped
    std::uint64_t asked = 0;              ///< generation of the newest question
    std::size_t box = 0;                  ///< the box in view
    char decimal_mark = '.';
    Date today;
    /// Places of values that wait to be confirmed, with the fields that name them.
    std::map<std::string, std::string> unconfirmed;
    std::string refused; ///< the entry that was refused last, and what was expected; empty: none
    std::function<void()> changed;                ///< after every change of the session
    std::function<void()> look;                   ///< after a change of `box` or `refused`
    std::function<void(const std::string&)> why;  ///< shows the basis of figures below a pointer
    std::function<void(const std::string&)> lead; ///< puts the cursor where a pointer leads

    const Estimate* estimate() const { return good ? good->estimate.get() : nullptr; }
    /// The figures in view belong to an older state of the request than the newest answer.
    bool stale() const { return good && answer->generation != good->generation; }
    /// The value that stands for an absent one, as the newest estimate took it; null if unknown.
    const Node* taken(const std::string& pointer) const {
        return good ? at_pointer(good->estimate->request.filled, pointer) : nullptr;
    }
    /// The fields to be confirmed that a place of the request stands for: its own and those inside
    /// it, else the group around it that is asked again.
    std::vector<std::string> to_confirm(const std::string& pointer) const;
    std::string box_pointer() const { return "/boxes/" + std::to_string(box); }
};

} // namespace backplate
