#include "tests/rule_sweep/questions.h"

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <stdexcept>

#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/price_job.h"
#include "pricing/request/check_request.h"
#include "reports/estimate_json.h"

namespace backplate {
namespace {

RuleRow& row_of(RuleTable& table, const std::string& key, std::size_t columns) {
    for (RuleRow& row : table.rows)
        if (row.key == key) return row;
    RuleRow row;
    row.key = key;
    row.cells.resize(columns);
    row.source = "rule sweep";
    row.confidence = "invented";
    table.rows.push_back(std::move(row));
    return table.rows.back();
}

void set_cell(RuleTable& table, const Setting& setting) {
    const TableSpec* spec = find_table_spec(setting.table);
    if (spec && setting.column == "active") {
        row_of(table, setting.row, spec->columns.size()).active = setting.text == "yes";
        return;
    }
    for (std::size_t c = 0; spec && c < spec->columns.size(); ++c)
        if (spec->columns[c].key == setting.column) {
            row_of(table, setting.row, spec->columns.size()).cells[c] = setting.text;
            return;
        }
    throw std::runtime_error("no column " + setting.table + "/" + setting.column);
}

std::vector<std::string> cells_of(const std::string& line) {
    std::vector<std::string> cells(1);
    for (const char c : line)
        if (c == '\t')
            cells.emplace_back();
        else
            cells.back() += c;
    return cells;
}

void read_settings(const std::string& file, Question& question) {
    std::istringstream lines(read_file(file));
    for (std::string line; std::getline(lines, line);) {
        const std::vector<std::string> cells = cells_of(line);
        if (cells.front() == "only" && cells.size() == 3)
            question.only.emplace_back(cells[1], cells[2]);
        else if (cells.front() == "set" && cells.size() == 5)
            question.settings.push_back({cells[1], cells[2], cells[3], cells[4]});
        else
            throw std::runtime_error(file + ": '" + line + "', expected only or set");
    }
}

} // namespace

SettingsOn::SettingsOn(RuleTables& tables, const std::vector<Setting>& settings) : tables_(tables) {
    for (const Setting& setting : settings) {
        RuleTable& table = tables_.table(setting.table);
        const auto at = static_cast<std::size_t>(&table - tables_.tables.data());
        const auto kept = std::find_if(kept_.begin(), kept_.end(),
                                       [&](const auto& each) { return each.first == at; });
        if (kept == kept_.end()) kept_.emplace_back(at, table);
        set_cell(table, setting);
    }
}

SettingsOn::~SettingsOn() {
    for (auto& [at, table] : kept_) tables_.tables[at] = std::move(table);
}

bool refused(const std::string& answer) { return answer.starts_with("refused: "); }

Reply reply(const Node& tree, const PriceBook& prices, const RuleBook& rules) {
    const CheckedRequest checked = check_request(tree, rules, Date{20'000});
    if (!checked.request) {
        std::string faults = "refused:";
        for (const RequestFault& fault : checked.faults)
            faults += " " + fault.where + " " + fault.text;
        return {faults, 0};
    }
    Work work;
    std::string text =
        estimate_json(price_job(*checked.request, prices, rules, work), rules, "sweep");
    return {std::move(text), work.counts.mix_labels + work.counts.candidates};
}

std::vector<Question> read_questions(const std::string& folder) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        if (entry.path().extension() == ".json") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    std::vector<Question> questions;
    for (const std::filesystem::path& file : files) {
        Question question;
        question.name = file.stem().string();
        question.tree = parse_json(file.string(), read_file(file.string())).root;
        const auto settings = std::filesystem::path(file).replace_extension(".tsv");
        if (std::filesystem::exists(settings)) read_settings(settings.string(), question);
        questions.push_back(std::move(question));
    }
    return questions;
}

bool asked_about(const Question& question, const std::string& table, const std::string& row) {
    if (question.only.empty()) return true;
    return std::any_of(question.only.begin(), question.only.end(), [&](const auto& each) {
        if (each.first != table) return false;
        const std::string& rows = each.second; // "motor*": all that begin so
        if (rows.ends_with('*')) return row.starts_with(rows.substr(0, rows.size() - 1));
        return rows.empty() || rows == row;
    });
}

} // namespace backplate
