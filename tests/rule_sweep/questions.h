#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"
#include "pricing/book/rule_tables.h"
#include "pricing/request/node.h"

namespace backplate {

/// A cell of the rules that a question sets, as a shop would: the row is added where it is missing.
struct Setting {
    std::string table, row, column, text;
};

/// A request, the settings of the rules that it is priced under, and the estimate that the starter
/// rules give to it.
struct Question {
    std::string name;
    Node tree;
    std::vector<Setting> settings;
    /// Tables, and rows (empty: all, "motor*": all that begin so), that it is asked about; none:
    /// about all.
    std::vector<std::pair<std::string, std::string>> only;
    std::string answer;
    std::int64_t cost = 0; ///< counted steps of its search
};

/// Puts settings on the tables as long as it lives.
class SettingsOn {
public:
    SettingsOn(RuleTables& tables, const std::vector<Setting>& settings);
    SettingsOn(const SettingsOn&) = delete;
    SettingsOn& operator=(const SettingsOn&) = delete;
    ~SettingsOn();

private:
    RuleTables& tables_;
    std::vector<std::pair<std::size_t, RuleTable>> kept_;
};

struct Reply {
    std::string text; ///< estimate as JSON, or "refused: " and why
    std::int64_t cost = 0;
};

/// What a request costs under these rules.
Reply reply(const Node& tree, const PriceBook& prices, const RuleBook& rules);

/// Questions out of a folder: NAME.json and, where it has settings, NAME.tsv with the lines
/// "only TABLE ROW" and "set TABLE ROW COLUMN TEXT", parted by tabulators. Not yet answered.
std::vector<Question> read_questions(const std::string& folder);

bool refused(const std::string& answer);

/// Whether it may be asked about a row, and whether it was made for that row or table.
bool asked_about(const Question& question, const std::string& table, const std::string& row);

} // namespace backplate
