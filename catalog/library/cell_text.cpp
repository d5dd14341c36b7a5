#include "catalog/library/cell_text.h"

#include <nlohmann/json.hpp>

#include "pricing/values/faults.h"

namespace backplate {

std::string cell_text(const Cells& cells) {
    auto object = nlohmann::json::object();
    for (const auto& [column, cell] : cells)
        if (!cell.empty()) object[column] = cell;
    return object.dump();
}

Cells read_cells(const std::string& text) {
    try {
        return nlohmann::json::parse(text).get<Cells>();
    } catch (const nlohmann::json::exception& error) {
        throw OutsideFault(std::string("cells cannot be read: ") + error.what());
    }
}

} // namespace backplate
