#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>

#include "catalog/exchange/price_csv.h"
#include "catalog/exchange/rules_csv.h"
#include "tests/rule_sweep/changed_cells.h"
#include "tests/rule_sweep/questions.h"

namespace backplate {
namespace {

using Rules = std::shared_ptr<const RuleBook>;

struct Sweep {
    std::shared_ptr<const PriceBook> prices;
    RuleTables tables;
    std::vector<Question> questions;           ///< cheapest first
    std::map<std::string, std::size_t> helped; ///< question that last moved a row of a table
};

/// Fewer simulated jobs: the sweep asks whether figures move, not how well they are known.
void draw_less(RuleTables& tables) {
    for (RuleRow& row : tables.table("risk").rows)
        if (row.key == "draws") row.cells.front() = "200";
}

/// The rules under which a question is priced.
Rules rules_for(Sweep& sweep, const Question& question) {
    const SettingsOn on(sweep.tables, question.settings);
    RuleBookResult result = make_rule_book(sweep.tables);
    if (!result.book)
        for (const RuleFault& fault : result.faults)
            std::cerr << question.name << ": " << fault.table << "/" << fault.row << " "
                      << fault.text << "\n";
    return result.book;
}

/// Has the starter rules answer a question; false where they refuse it, which is printed once.
bool answered(Sweep& sweep, Question& question) {
    if (!question.answer.empty()) return !refused(question.answer);
    const Rules rules = rules_for(sweep, question);
    Reply first{"refused: settings", 0};
    if (rules) first = reply(question.tree, *sweep.prices, *rules);
    question.answer = std::move(first.text);
    question.cost = first.cost;
    if (!refused(question.answer)) return true;
    std::cout << "refused\t" << question.name << "\t" << question.answer.substr(9) << "\n";
    return false;
}

/// Questions about all rows are answered here, those made for a row where that row is judged.
Sweep read_sweep(const std::string& tree, const std::string& requests) {
    Sweep sweep;
    sweep.tables = read_rules_dir(tree + "/catalog/starter/rules");
    draw_less(sweep.tables);
    sweep.prices = std::make_shared<PriceBook>(read_parts_dir(requests + "/prices"), 1);
    for (Question& question : read_questions(requests))
        if (!question.only.empty() || answered(sweep, question))
            sweep.questions.push_back(std::move(question));
    std::stable_sort(sweep.questions.begin(), sweep.questions.end(),
                     [](const Question& a, const Question& b) { return a.cost < b.cost; });
    return sweep;
}

/// New texts of a row's columns.
struct RowChange {
    std::size_t table_at = 0, row_at = 0;
    std::vector<std::pair<std::size_t, std::string>> cells;
};

/// Changes of a cell that the tables accept, with the rules that they make.
struct Accepted {
    std::vector<RowChange> changes;
    std::vector<Rules> rules; ///< one per change
};

/// A cell, the changes to try in each direction, and what the starter rules accept of them.
struct Suspect {
    const NumericCell* cell = nullptr;
    std::vector<std::vector<RowChange>> directions;
    Accepted accepted;
};

/// The rules with these changes; nothing where they are not accepted.
Rules changed_rules(Sweep& sweep, const std::vector<RowChange>& changes) {
    std::vector<RuleRow> kept;
    const auto row_of = [&](const RowChange& change) -> RuleRow& {
        return sweep.tables.tables[change.table_at].rows[change.row_at];
    };
    for (const RowChange& change : changes) {
        kept.push_back(row_of(change));
        for (const auto& [column, text] : change.cells) row_of(change).cells[column] = text;
    }
    auto book = make_rule_book(sweep.tables).book;
    for (std::size_t i = changes.size(); i-- > 0;) row_of(changes[i]) = kept[i];
    return book;
}

/// The change of one cell; where `wider`, the usual range follows if it holds only the value.
RowChange row_change(const Sweep& sweep, const NumericCell& cell, const std::string& text,
                     bool wider) {
    const RuleTable& table = sweep.tables.tables[cell.table_at];
    RowChange change{cell.table_at, cell.row_at, {{cell.column_at, text}}};
    const TableSpec& spec = *find_table_spec(table.name);
    for (std::size_t c = 0; wider && c < spec.columns.size(); ++c) {
        const bool range = spec.columns[c].key == "low" || spec.columns[c].key == "high";
        if (range && table.rows[cell.row_at].cells[c] == cell.text)
            change.cells.emplace_back(c, text);
    }
    return change;
}

/// The first change of each direction that the tables accept.
Accepted accepted(Sweep& sweep, const std::vector<std::vector<RowChange>>& directions) {
    Accepted result;
    for (const std::vector<RowChange>& direction : directions)
        for (const RowChange& change : direction) {
            Rules rules = changed_rules(sweep, {change});
            if (!rules) continue;
            result.changes.push_back(change);
            result.rules.push_back(std::move(rules));
            break;
        }
    return result;
}

Suspect suspect(Sweep& sweep, const NumericCell& cell) {
    Suspect result{&cell, {}, {}};
    for (const std::vector<std::string>& direction : small_changes(cell.text)) {
        result.directions.emplace_back();
        for (const bool wider : {false, true})
            for (const std::string& text : direction)
                result.directions.back().push_back(row_change(sweep, cell, text, wider));
    }
    result.accepted = accepted(sweep, result.directions);
    return result;
}

/// Whether the answer differs under any of the rules.
bool differs(const Sweep& sweep, const Question& question, const std::vector<Rules>& rules) {
    return std::any_of(rules.begin(), rules.end(), [&](const Rules& each) {
        return reply(question.tree, *sweep.prices, *each).text != question.answer;
    });
}

/// Whether the answer differs under a change of the cell; settings of the question decide anew
/// which changes are accepted.
bool moves(Sweep& sweep, Question& question, const Suspect& each) {
    if (!answered(sweep, question)) return false;
    if (question.settings.empty()) return differs(sweep, question, each.accepted.rules);
    const SettingsOn on(sweep.tables, question.settings);
    return differs(sweep, question, accepted(sweep, each.directions).rules);
}

/// Questions that are likely to move with a row: made for it, that moved another row of its table
/// last, or cite it; the cheapest first.
std::vector<std::size_t> likely(const Sweep& sweep, const NumericCell& cell) {
    const std::string cited = "\"" + cell.table + "/" + cell.row + "\"";
    std::vector<std::size_t> made, citing;
    for (std::size_t i = 0; i < sweep.questions.size(); ++i) {
        const Question& question = sweep.questions[i];
        if (!asked_about(question, cell.table, cell.row)) continue;
        if (!question.only.empty())
            made.push_back(i);
        else if (question.answer.find(cited) != std::string::npos)
            citing.push_back(i);
    }
    constexpr std::size_t most_citing = 4; // the rest is asked with the others
    if (citing.size() > most_citing) citing.resize(most_citing);
    const auto helped = sweep.helped.find(cell.table);
    if (helped != sweep.helped.end()) made.push_back(helped->second);
    made.insert(made.end(), citing.begin(), citing.end());
    return made;
}

bool moves_likely(Sweep& sweep, const Suspect& each) {
    for (const std::size_t at : likely(sweep, *each.cell)) {
        Question& question = sweep.questions[at];
        if (!moves(sweep, question, each)) continue;
        if (question.only.empty()) sweep.helped[each.cell->table] = at;
        return true;
    }
    return false;
}

/// Whether the answer of a question that is asked about all rows differs under these rules.
bool moves_any(Sweep& sweep, const RuleBook& rules, const std::string& table) {
    for (std::size_t i = 0; i < sweep.questions.size(); ++i) {
        const Question& question = sweep.questions[i];
        if (!question.only.empty() || !question.settings.empty()) continue;
        if (reply(question.tree, *sweep.prices, rules).text == question.answer) continue;
        sweep.helped[table] = i;
        return true;
    }
    return false;
}

void say(const NumericCell& cell, const char* outcome) {
    std::cout << outcome << "\t" << cell.table << "\t" << cell.row << "\t" << cell.column << "\t"
              << cell.text << std::endl;
}

/// Judges cells together: where all of them changed at once move nothing, none of them does.
void judge(Sweep& sweep, const std::vector<Suspect>& group) {
    if (group.empty()) return;
    bool moved = false, accepted = true;
    for (const bool first : {true, false}) {
        std::vector<RowChange> changes;
        for (const Suspect& each : group)
            changes.push_back(first ? each.accepted.changes.front() : each.accepted.changes.back());
        const auto rules = changed_rules(sweep, changes);
        accepted = accepted && rules;
        moved = moved || (rules && moves_any(sweep, *rules, group.front().cell->table));
        if (moved || !accepted) break;
    }
    if (group.size() == 1 || (!moved && accepted)) {
        for (const Suspect& each : group) say(*each.cell, moved ? "moves" : "dead");
        return;
    }
    const auto middle = group.begin() + static_cast<std::ptrdiff_t>(group.size() / 2);
    judge(sweep, {group.begin(), middle});
    judge(sweep, {middle, group.end()});
}

struct Arguments {
    std::string tree, requests;
    std::size_t part = 0, parts = 1, every = 1;
    std::string tables; ///< parted by commas; empty: all
};

/// The cells of one part of the work.
std::vector<NumericCell> own_cells(const Sweep& sweep, const Arguments& given) {
    std::vector<NumericCell> all = numeric_cells(sweep.tables), own;
    const std::string tables = "," + given.tables + ",";
    if (!given.tables.empty())
        std::erase_if(all, [&](const NumericCell& cell) {
            return tables.find("," + cell.table + ",") == std::string::npos;
        });
    for (std::size_t i = given.part * given.every; i < all.size(); i += given.parts * given.every)
        own.push_back(std::move(all[i]));
    return own;
}

void judge_all(Sweep& sweep, const std::vector<NumericCell>& cells) {
    constexpr std::size_t together = 16;
    std::vector<Suspect> group;
    for (const NumericCell& cell : cells) {
        Suspect each = suspect(sweep, cell);
        if (moves_likely(sweep, each)) {
            say(cell, "moves");
        } else if (each.accepted.changes.empty()) {
            say(cell, "fixed");
        } else {
            each.accepted.rules.clear();
            group.push_back(std::move(each));
        }
        if (group.size() == together) judge(sweep, std::exchange(group, {}));
    }
    judge(sweep, group);
}

/// rule_sweep TREE REQUESTS PART PARTS [EVERY [TABLE,TABLE]]: one line per numeric cell of every
/// PARTS-th.
int run(int count, char** arguments) {
    if (count < 5) {
        std::cerr << "usage: rule_sweep TREE REQUESTS PART PARTS [EVERY [TABLE,TABLE]]\n";
        return 2;
    }
    const auto number = [&](int at) { return static_cast<std::size_t>(std::atoi(arguments[at])); };
    const Arguments given{arguments[1],
                          arguments[2],
                          number(3),
                          number(4),
                          count > 5 ? number(5) : 1,
                          count > 6 ? arguments[6] : ""};
    Sweep sweep = read_sweep(given.tree, given.requests);
    judge_all(sweep, own_cells(sweep, given));
    return 0;
}

} // namespace
} // namespace backplate

int main(int count, char** arguments) {
    try {
        return backplate::run(count, arguments);
    } catch (const std::exception& error) {
        std::cerr << "rule_sweep: " << error.what() << "\n";
        return 1;
    }
}
