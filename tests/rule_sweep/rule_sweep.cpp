#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>

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
    sweep.prices = std::make_shared<PriceBook>(read_parts_dir(tree + "/demo/prices"), 1);
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

/// The question whose answer differs under these rules; it then stands first.
const Question* moved_question(Sweep& sweep, const RuleBook& rules) {
    for (std::size_t i = 0; i < sweep.questions.size(); ++i) {
        const Question& question = sweep.questions[i];
        if (answer(question.tree, *sweep.prices, rules) == question.answer) continue;
        const auto begin = sweep.questions.begin() + static_cast<std::ptrdiff_t>(i);
        std::rotate(sweep.questions.begin(), begin, begin + 1);
        return &sweep.questions.front();
    }
    return nullptr;
}

/// The usual range follows where it holds nothing but the value.
void widen(RuleRow& row, const TableSpec& spec, const std::string& text,
           const std::string& change) {
    for (std::size_t c = 0; c < spec.columns.size(); ++c)
        if ((spec.columns[c].key == "low" || spec.columns[c].key == "high") && row.cells[c] == text)
            row.cells[c] = change;
}

enum class Outcome { moves, dead, fixed };

/// Tries the changes one by one; `question` is then the one that moved.
Outcome outcome_of(Sweep& sweep, const NumericCell& cell, bool wider, std::string& question) {
    RuleTable& table = sweep.tables.tables[cell.table_at];
    RuleRow& row = table.rows[cell.row_at];
    const RuleRow kept = row;
    Outcome outcome = Outcome::fixed;
    for (const std::string& change : small_changes(cell.text)) {
        row.cells[cell.column_at] = change;
        if (wider) widen(row, *find_table_spec(table.name), cell.text, change);
        const RuleBookResult rules = make_rule_book(sweep.tables);
        row = kept;
        if (!rules.book) continue;
        outcome = Outcome::dead;
        if (const Question* moved = moved_question(sweep, *rules.book)) {
            question = moved->name;
            return Outcome::moves;
        }
    }
    return outcome;
}

const char* word_of(Outcome outcome) {
    return outcome == Outcome::moves ? "moves" : outcome == Outcome::dead ? "dead" : "fixed";
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
    for (std::size_t i = part * every; i < cells.size(); i += parts * every) {
        std::string question;
        Outcome outcome = outcome_of(sweep, cells[i], false, question);
        if (outcome == Outcome::fixed) outcome = outcome_of(sweep, cells[i], true, question);
        std::cout << word_of(outcome) << "\t" << cells[i].table << "\t" << cells[i].row << "\t"
                  << cells[i].column << "\t" << cells[i].text << "\t" << question << std::endl;
    }
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
