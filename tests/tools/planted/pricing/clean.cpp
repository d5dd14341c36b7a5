// clean
#include <array>
#include <charconv>
#include <stdexcept>
#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/values/money.h"
#include "pricing/values/work.h"

namespace backplate {

struct Row {
    std::string_view key;
    int value;
};
constexpr std::array<Row, 2> rows{{{"one", 1}, {"two", 2}}};

int planted(std::string_view key, const Work& work) {
    work.check_stop();
    std::vector<std::string> seen;
    for (const Row& row : rows) {
        seen.emplace_back(row.key);
        if (row.key == key) return row.value;
    }
    throw std::invalid_argument("no row " + std::string(key) + steps_text(1, 0));
}

} // namespace backplate
