#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "catalog/library/library.h"

namespace backplate {

/// One change set as it is listed.
struct ChangeSetHead {
    int number = 0;
    std::string made_at; ///< UTC, 2026-11-24T09:30:00Z
    std::string person, reason;
    int parts_added = 0, parts_changed = 0, parts_ended = 0;
    int rules_added = 0, rules_changed = 0, rules_ended = 0;
};

/// Every change set of the library in the order of the numbers. Throws OutsideFault as Library.
std::vector<ChangeSetHead> list_change_sets(const std::string& path);

/// What became of an undo: the new change set, or why it cannot be done.
struct Undone {
    std::optional<ChangeSummary> parts, rules;
    std::string refusal; ///< empty: done
};

/// Takes back change set `number` by a new one: rows that it added end, rows that it changed or
/// ended stand again as before. Refused in words, with the library as it was, where a later change
/// set touched one of these rows, where the number is 1 (the content the library was made with) or
/// where nothing of it is left to take back. `check` judges what would stand then; what it throws
/// leaves the library as it was. Throws BadInput where there is no such change set, OutsideFault
/// as Library.
Undone undo_change_set(const std::string& path, int number,
                       const std::function<void(const LibraryContent&)>& check,
                       const ChangeNote& note);

} // namespace backplate
