#include "catalog/library/cell_text.h"

#include <nlohmann/json.hpp>

#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// Takes one object of texts as it is read, without a tree: a library holds many thousand rows.
class CellReader : public nlohmann::json_sax<nlohmann::json> {
public:
    bool key(std::string& column) override {
        cells_.emplace_back(std::move(column), std::string());
        return true;
    }
    bool string(std::string& cell) override {
        if (cells_.empty()) return false;
        cells_.back().second = std::move(cell);
        return true;
    }
    bool start_object(std::size_t) override { return ++objects_ == 1; }
    bool end_object() override { return true; }
    bool null() override { return false; }
    bool boolean(bool) override { return false; }
    bool number_integer(number_integer_t) override { return false; }
    bool number_unsigned(number_unsigned_t) override { return false; }
    bool number_float(number_float_t, const string_t&) override { return false; }
    bool binary(binary_t&) override { return false; }
    bool start_array(std::size_t) override { return false; }
    bool end_array() override { return false; }
    bool parse_error(std::size_t, const std::string&,
                     const nlohmann::json::exception& error) override {
        fault_ = error.what();
        return false;
    }

    const std::string& fault() const { return fault_; }
    std::vector<std::pair<std::string, std::string>> take() { return std::move(cells_); }

private:
    std::vector<std::pair<std::string, std::string>> cells_;
    std::string fault_ = "expected an object of texts";
    int objects_ = 0;
};

} // namespace

std::string cell_text(const Cells& cells) {
    auto object = nlohmann::json::object();
    for (const auto& [column, cell] : cells)
        if (!cell.empty()) object[column] = cell;
    return object.dump();
}

std::vector<std::pair<std::string, std::string>> list_cells(const std::string& text) {
    CellReader reader;
    if (!nlohmann::json::sax_parse(text, &reader))
        throw OutsideFault("cells cannot be read: " + reader.fault());
    return reader.take();
}

Cells read_cells(const std::string& text) {
    Cells cells;
    for (auto& [column, cell] : list_cells(text)) cells.insert_or_assign(column, std::move(cell));
    return cells;
}

} // namespace backplate
