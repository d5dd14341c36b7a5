#include "app/command_line/library_changes.h"

#include <cstdio>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/commands.h"
#include "app/stored_data.h"
#include "catalog/library/change_sets.h"
#include "pricing/book/part_readers.h"
#include "pricing/book/rule_book.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

std::string rows_text(int added, int changed, int ended, const char* rows) {
    if (added + changed + ended == 0) return "";
    return fmt::format("  {} new, {} changed, {} ended {}", added, changed, ended, rows);
}

Json rows_json(int added, int changed, int ended) {
    return {{"new", added}, {"changed", changed}, {"ended", ended}};
}

Json summary_json(const std::optional<ChangeSummary>& summary) {
    return summary ? rows_json(summary->added, summary->changed, summary->ended)
                   : rows_json(0, 0, 0);
}

/// Only rules that make a rule book may stand in a library.
void check_content(const LibraryContent& content) {
    const auto faults = make_rule_book(content.rules).faults;
    if (!faults.empty())
        throw BadInput("the rules would not stand without this change set: " +
                       fault_text(faults.front()));
}

void print_undone(int number, const Undone& undone, int change_set, bool json) {
    if (json) {
        const Json object{{"undone", number},
                          {"change_set", change_set},
                          {"parts", summary_json(undone.parts)},
                          {"rules", summary_json(undone.rules)}};
        fmt::print("{}\n", object.dump(2));
        return;
    }
    std::string text =
        fmt::format("Change set {} taken back by change set {}:", number, change_set);
    if (undone.parts)
        text += rows_text(undone.parts->added, undone.parts->changed, undone.parts->ended, "parts");
    if (undone.rules)
        text += rows_text(undone.rules->added, undone.rules->changed, undone.rules->ended, "rules");
    fmt::print("{}\n", text);
}

} // namespace

int print_change_sets(const std::string& path, bool json) {
    const auto heads = list_change_sets(path);
    if (json) {
        Json list = Json::array();
        for (const ChangeSetHead& head : heads)
            list.push_back(
                {{"number", head.number},
                 {"time", head.made_at},
                 {"person", head.person},
                 {"reason", head.reason},
                 {"parts", rows_json(head.parts_added, head.parts_changed, head.parts_ended)},
                 {"rules", rows_json(head.rules_added, head.rules_changed, head.rules_ended)}});
        fmt::print("{}\n", list.dump(2));
        return done;
    }
    for (const ChangeSetHead& head : heads)
        fmt::print("{:>4}  {}  {}  {}{}{}\n", head.number, head.made_at, head.person, head.reason,
                   rows_text(head.parts_added, head.parts_changed, head.parts_ended, "parts"),
                   rows_text(head.rules_added, head.rules_changed, head.rules_ended, "rules"));
    return done;
}

int undo_change(const std::string& path, const std::string& text, bool json) {
    const auto number = integer_in(text, 1, 1'000'000'000);
    if (!number) throw BadInput("library undo: '" + text + "' is no change set; expected a number");
    const auto undone =
        undo_change_set(path, *number, check_content, {user_name(), "undo of change set " + text});
    if (!undone.refusal.empty()) {
        fmt::print(stderr, "backplate: change set {} cannot be undone: {}\n", *number,
                   undone.refusal);
        return not_as_asked;
    }
    for (const auto* summary : {&undone.parts, &undone.rules})
        if (*summary && (*summary)->change_set) {
            print_undone(*number, undone, *(*summary)->change_set, json);
            break;
        }
    return done;
}

} // namespace backplate
