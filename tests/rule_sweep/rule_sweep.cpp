#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <utility>

#include "catalog/cells/table.h"
#include "catalog/exchange/price_csv.h"
#include "catalog/exchange/request_json.h"
#include "catalog/exchange/rules_csv.h"
#include "pricing/price_job.h"
#include "pricing/request/check_request.h"
#include "reports/estimate_json.h"
#include "tests/rule_sweep/changed_cells.h"

namespace backplate {
namespace {

/// A request with the answer that the starter rules give to it.
struct Question {
    std::string name;
    Node tree;
    std::string answer;
};

struct Sweep {
    std::shared_ptr<const PriceBook> prices;
    RuleTables tables;
    std::vector<Question> questions;
};

/// The estimate as JSON, or what is wrong with the request.
std::string answer(const Node& tree, const PriceBook& prices, const RuleBook& rules) {
    const CheckedRequest checked = check_request(tree, rules, Date{20'000});
    if (!checked.request) {
        std::string faults = "refused:";
        for (const RequestFault& fault : checked.faults)
            faults += " " + fault.where + " " + fault.text;
        return faults;
    }
    Work work;
    return estimate_json(price_job(*checked.request, prices, rules, work), rules, "sweep");
}

std::vector<std::string> files_of(const std::string& folder) {
    std::vector<std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".json") files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    return files;
}

/// Fewer simulated jobs: the sweep asks whether figures move, not how well they are known.
void draw_less(RuleTables& tables) {
    for (RuleRow& row : tables.table("risk").rows)
        if (row.key == "draws") row.cells.front() = "200";
}

Sweep read_sweep(const std::string& tree, const std::string& requests) {
    Sweep sweep;
    sweep.tables = read_rules_dir(tree + "/catalog/starter/rules");
    draw_less(sweep.tables);
    std::vector<Part> parts = read_parts_dir(tree + "/demo/prices");
    for (Part& part : read_parts_dir(tree + "/tests/rule_sweep/parts"))
        parts.push_back(std::move(part));
    sweep.prices = std::make_shared<PriceBook>(std::move(parts), 1);
    const RuleBookResult rules = make_rule_book(sweep.tables);
    for (const std::string& file : files_of(requests)) {
        Question question{std::filesystem::path(file).stem().string(),
                          parse_json(file, read_file(file)).root, ""};
        question.answer = answer(question.tree, *sweep.prices, *rules.book);
        if (question.answer.starts_with("refused:")) {
            std::cout << "refused\t" << question.name << "\t" << question.answer.substr(9) << "\n";
            continue;
        }
        sweep.questions.push_back(std::move(question));
    }
    return sweep;
}

/// Whether an answer differs under these rules; that question then stands first.
bool moves_any(Sweep& sweep, const RuleBook& rules) {
    for (std::size_t i = 0; i < sweep.questions.size(); ++i) {
        if (answer(sweep.questions[i].tree, *sweep.prices, rules) == sweep.questions[i].answer)
            continue;
        const auto begin = sweep.questions.begin() + static_cast<std::ptrdiff_t>(i);
        std::rotate(sweep.questions.begin(), begin, begin + 1);
        return true;
    }
    return false;
}

/// New texts of a row's columns.
struct RowChange {
    std::size_t table_at = 0, row_at = 0;
    std::vector<std::pair<std::size_t, std::string>> cells;
};

/// A cell, the first change up and the first change down that the tables accept.
struct Suspect {
    const NumericCell* cell = nullptr;
    std::vector<RowChange> changes;
};

/// The rules with these changes; nothing where they are not accepted.
std::shared_ptr<const RuleBook> changed_rules(Sweep& sweep, const std::vector<RowChange>& changes) {
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

Suspect suspect(Sweep& sweep, const NumericCell& cell) {
    Suspect result{&cell, {}};
    for (const std::vector<std::string>& direction : small_changes(cell.text))
        for (const bool wider : {false, true}) {
            const std::size_t before = result.changes.size();
            for (const std::string& text : direction) {
                const RowChange change = row_change(sweep, cell, text, wider);
                if (!changed_rules(sweep, {change})) continue;
                result.changes.push_back(change);
                break;
            }
            if (result.changes.size() > before) break;
        }
    return result;
}

/// Whether the answer of a question that cites the row differs.
bool moves_cited(Sweep& sweep, const Suspect& each) {
    const std::string cited = "\"" + each.cell->table + "/" + each.cell->row + "\"";
    int tried = 0;
    for (const Question& question : sweep.questions) {
        if (question.answer.find(cited) == std::string::npos) continue;
        for (const RowChange& change : each.changes)
            if (answer(question.tree, *sweep.prices, *changed_rules(sweep, {change})) !=
                question.answer)
                return true;
        if (++tried == 3) return false; // the rest is asked with the others
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
            changes.push_back(first ? each.changes.front() : each.changes.back());
        const auto rules = changed_rules(sweep, changes);
        accepted = accepted && rules;
        moved = moved || (rules && moves_any(sweep, *rules));
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

/// rule_sweep TREE REQUESTS PART PARTS [EVERY]: one line per numeric cell of every PARTS-th.
int run(int count, char** arguments) {
    if (count < 5) {
        std::cerr << "usage: rule_sweep TREE REQUESTS PART PARTS [EVERY]\n";
        return 2;
    }
    Sweep sweep = read_sweep(arguments[1], arguments[2]);
    const auto part = static_cast<std::size_t>(std::atoi(arguments[3]));
    const auto parts = static_cast<std::size_t>(std::atoi(arguments[4]));
    const auto every = static_cast<std::size_t>(count > 5 ? std::atoi(arguments[5]) : 1);
    const std::vector<NumericCell> cells = numeric_cells(sweep.tables);
    constexpr std::size_t together = 8;
    std::vector<Suspect> group;
    for (std::size_t i = part * every; i < cells.size(); i += parts * every) {
        Suspect each = suspect(sweep, cells[i]);
        if (each.changes.empty())
            say(cells[i], "fixed");
        else if (moves_cited(sweep, each))
            say(cells[i], "moves");
        else
            group.push_back(std::move(each));
        if (group.size() == together) judge(sweep, std::exchange(group, {}));
    }
    judge(sweep, group);
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
