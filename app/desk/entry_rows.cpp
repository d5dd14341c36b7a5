#include "app/desk/entry_rows.h"

#include <algorithm>
#include <cctype>

#include "app/desk/entry_check.h"
#include "app/desk/number_entry.h"
#include "app/desk/words.h"

namespace backplate {
namespace {

using Kind = EntryColumn::Kind;

constexpr std::size_t no_column = static_cast<std::size_t>(-1);

std::string lower(std::string text) {
    for (char& sign : text)
        sign = static_cast<char>(std::tolower(static_cast<unsigned char>(sign)));
    return text;
}

bool is_blank(const std::vector<std::string>& cells) {
    return std::ranges::all_of(cells, [](const std::string& cell) {
        return cell.find_first_not_of(" \t") == std::string::npos;
    });
}

/// What a heading of a client's list stands for among the keys of points.
const char* key_of_role(const std::string& role) {
    if (role == "type") return "signal";
    if (role == "quantity") return "count";
    if (role == "remarks") return "note";
    return "";
}

} // namespace

int EntryRows::row_count() const {
    const Node* rows = state_.session.value(rows_pointer());
    return rows ? static_cast<int>(rows->items.size()) : 0;
}

bool EntryRows::waits(int row) const {
    return !state_.unconfirmed.empty() &&
           !state_.to_confirm(rows_pointer() + "/" + std::to_string(row)).empty();
}

std::string EntryRows::pointer(int row, int column) const {
    const EntryColumn& spec = list_.columns[static_cast<std::size_t>(column)];
    const std::string at = rows_pointer() + "/" + std::to_string(row);
    if (spec.kind != Kind::spare) return *spec.key ? at + "/" + spec.key : at;
    const Node* signal = state_.session.value(at + "/signal");
    return "/spare/percent/" + (signal ? signal->text : std::string("-"));
}

const Node* EntryRows::cell(int row, int column) const {
    return state_.session.value(pointer(row, column));
}

/// Only where the estimate's row is still of the same kind: rows may have moved since.
const Node* EntryRows::taken_cell(int row, int column) const {
    if (list_.columns[static_cast<std::size_t>(column)].kind == Kind::spare) {
        const Node* sent = state_.session.value("/spare/percent");
        if (sent && sent->is(Node::Kind::number)) return sent;
        if (sent && sent->find("default")) return sent->find("default");
        const Node* percent = state_.taken("/spare/percent");
        return percent && percent->is(Node::Kind::object) ? percent->find("default") : percent;
    }
    const Node* first = cell(row, 0);
    const Node* taken_first = state_.taken(pointer(row, 0));
    if (!first || !taken_first || !(*first == *taken_first)) return nullptr;
    return state_.taken(pointer(row, column));
}

std::string EntryRows::text(int row, int column) const {
    if (row >= row_count()) return {};
    const Node* value = cell(row, column);
    return shown(value ? value : taken_cell(row, column), state_.decimal_mark);
}

std::vector<std::string> EntryRows::titles() const {
    std::vector<std::string> titles;
    for (const EntryColumn& column : list_.columns) titles.emplace_back(column.title);
    return titles;
}

/// The column that each cell of a heading names; empty where it is no heading.
std::vector<std::size_t> EntryRows::columns_of(const std::vector<std::string>& heading) const {
    std::vector<std::size_t> columns;
    std::size_t known = 0;
    for (const std::string& cell : heading) {
        const std::string word = lower(cell);
        const auto spelling =
            std::ranges::find_if(state_.inputs->rules->headings,
                                 [&](const Spelling& each) { return lower(each.text) == word; });
        const std::string role = spelling == state_.inputs->rules->headings.end()
                                     ? std::string()
                                     : key_of_role(spelling->meaning);
        std::size_t found = no_column;
        for (std::size_t i = 0; i < list_.columns.size() && found == no_column; ++i) {
            const EntryColumn& column = list_.columns[i];
            if (word == lower(column.title) || word == column.key ||
                (!role.empty() && role == column.key))
                found = i;
        }
        if (found != no_column) ++known;
        columns.push_back(found);
    }
    const bool is_heading = known > 0 && 2 * known >= heading.size();
    return is_heading ? columns : std::vector<std::size_t>();
}

std::optional<Node> EntryRows::typed(std::size_t column, const std::string& text) const {
    const EntryColumn& spec = list_.columns[column];
    if (spec.kind == Kind::number || spec.kind == Kind::spare)
        return typed_number(text, state_.decimal_mark);
    if (spec.kind == Kind::flag) return typed_flag(text);
    if (spec.kind == Kind::money) return typed_money(text, state_.decimal_mark);
    return typed_text(known_word(*state_.inputs->rules, spec.words, text));
}

void EntryRows::put_value(Node& request, Place place, std::optional<Node> value) const {
    Node* rows = make_at_pointer(request, rows_pointer());
    if (!rows) return;
    if (!rows->is(Node::Kind::list)) *rows = Node::make_list();
    const auto index = static_cast<std::size_t>(place.row);
    const EntryColumn& spec = list_.columns[place.column];
    while (rows->items.size() <= index)
        rows->items.push_back(*spec.key ? Node::make_object() : Node{});
    Node& row = rows->items[index];
    if (!*spec.key)
        row = value ? *std::move(value) : Node{};
    else if (value)
        row.member(spec.key) = *std::move(value);
    else
        row.erase(spec.key);
}

/// A figure for every signal becomes its default beside that of this row's signal.
void EntryRows::put_spare(Node& request, int row, const std::optional<Node>& percent) const {
    const Node* signal =
        at_pointer(request, rows_pointer() + "/" + std::to_string(row) + "/signal");
    if (!signal || signal->text.empty()) return;
    Node& all = *make_at_pointer(request, "/spare/percent");
    if (all.is(Node::Kind::number)) {
        Node map = Node::make_object();
        map.member("default") = all;
        all = std::move(map);
    }
    if (!all.is(Node::Kind::object)) all = Node::make_object();
    if (percent)
        all.member(signal->text) = *percent;
    else
        all.erase(signal->text);
    if (all.members.empty()) request.find("spare")->erase("percent");
    if (request.find("spare")->members.empty()) request.erase("spare");
}

/// "48 di" is a count and a signal.
void EntryRows::put_signal(Node& request, Place place, const std::string& text) const {
    const std::size_t digits = std::min(text.find_first_not_of("0123456789"), text.size());
    const std::string word =
        text.substr(std::min(text.find_first_not_of(' ', digits), text.size()));
    if (digits > 0 && !word.empty())
        put_value(request, {place.row, 1}, Node::make_number(text.substr(0, digits)));
    const std::string& name = digits > 0 && !word.empty() ? word : text;
    const NamedSignal named = named_signal(name, *state_.inputs->rules);
    put_value(request, place, typed_text(named.signal.empty() ? name : named.signal));
}

void EntryRows::put(Node& request, Place place, const std::string& text) const {
    const EntryColumn& spec = list_.columns[place.column];
    if (spec.kind == Kind::spare)
        put_spare(request, place.row, typed(place.column, text));
    else if (spec.kind == Kind::signal)
        put_signal(request, place, text);
    else
        put_value(request, place, typed(place.column, text));
}

std::string EntryRows::reason(Place place, const Node& request, const std::string& fault) const {
    const EntryColumn& spec = list_.columns[place.column];
    std::string text = "Row " + std::to_string(place.row + 1) + ", " + spec.title + ": ";
    if (spec.kind != Kind::signal) return text + fault;
    const Node* typed = at_pointer(request, pointer(place.row, static_cast<int>(place.column)));
    const NamedSignal named =
        typed ? named_signal(typed->text, *state_.inputs->rules) : NamedSignal{};
    if (named.candidates.size() < 2) return text + fault;
    text += "'" + typed->text + "' may be ";
    for (std::size_t i = 0; i < named.candidates.size(); ++i)
        text += (i == 0                             ? ""
                 : i + 1 == named.candidates.size() ? " or "
                                                    : ", ") +
                named.candidates[i];
    return text;
}

/// Takes back what the check of the request does not take; says the first of it.
std::string EntryRows::refuse(Node& request, const std::vector<Place>& places) const {
    const Node& before = *state_.session.request();
    const auto faults = new_faults(before, request, *state_.inputs->rules, state_.today);
    std::string said;
    std::size_t count = 0;
    for (const Place& place : places) {
        const std::string at = pointer(place.row, static_cast<int>(place.column));
        const auto fault = std::ranges::find_if(
            faults, [&](const RequestFault& each) { return is_about(each.where, at); });
        if (fault == faults.end() || fault->where == rows_pointer()) continue;
        if (fault->text.starts_with("is missing")) continue;
        if (++count == 1) said = reason(place, request, fault->text);
        const Node* old = at_pointer(before, at);
        const auto value = old ? std::optional(*old) : std::nullopt;
        if (list_.columns[place.column].kind == Kind::spare)
            put_spare(request, place.row, value);
        else
            put_value(request, place, value);
    }
    if (count > 1) said += " (and " + std::to_string(count - 1) + " more not taken)";
    return said;
}

/// New rows of which nothing was taken.
void EntryRows::drop_empty_rows(Node& request) const {
    Node* rows = make_at_pointer(request, rows_pointer());
    if (!rows || !rows->is(Node::Kind::list)) return;
    const auto is_empty = [](const Node& row) {
        return row.is(Node::Kind::null) || (row.is(Node::Kind::object) && row.members.empty());
    };
    const auto known = std::min(rows->items.size(), static_cast<std::size_t>(row_count()));
    rows->items.erase(std::remove_if(rows->items.begin() + static_cast<std::ptrdiff_t>(known),
                                     rows->items.end(), is_empty),
                      rows->items.end());
}

void EntryRows::store(Node request, std::string refused) {
    state_.refused = std::move(refused);
    state_.session.replace(std::move(request));
    state_.changed();
}

void EntryRows::write_places(const std::vector<Place>& places,
                             const std::vector<std::string>& texts) {
    Node request = *state_.session.request();
    for (std::size_t i = 0; i < places.size(); ++i) put(request, places[i], texts[i]);
    std::string refused = refuse(request, places);
    drop_empty_rows(request);
    store(std::move(request), std::move(refused));
}

void EntryRows::write(int row, int column, const CellTexts& cells) {
    std::vector<Place> places;
    std::vector<std::string> texts;
    for (std::size_t down = 0; down < cells.size(); ++down)
        for (std::size_t across = 0; across < cells[down].size(); ++across) {
            const std::size_t target = static_cast<std::size_t>(column) + across;
            if (target >= list_.columns.size()) continue;
            places.push_back({row + static_cast<int>(down), target});
            texts.push_back(cells[down][across]);
        }
    write_places(places, texts);
}

void EntryRows::paste(int row, int column, CellTexts cells) {
    std::erase_if(cells, is_blank);
    const auto columns = cells.size() > 1 ? columns_of(cells.front()) : std::vector<std::size_t>();
    if (columns.empty()) return write(row, column, cells);
    std::vector<Place> places;
    std::vector<std::string> texts;
    for (std::size_t down = 1; down < cells.size(); ++down)
        for (std::size_t across = 0; across < std::min(cells[down].size(), columns.size());
             ++across) {
            if (columns[across] == no_column) continue;
            places.push_back({row + static_cast<int>(down) - 1, columns[across]});
            texts.push_back(cells[down][across]);
        }
    write_places(places, texts);
}

void EntryRows::remove_rows(int first, int count) {
    Node request = *state_.session.request();
    Node* rows = make_at_pointer(request, rows_pointer());
    if (!rows) return;
    const int size = static_cast<int>(rows->items.size());
    const auto begin = rows->items.begin();
    rows->items.erase(begin + std::min(first, size), begin + std::min(first + count, size));
    store(std::move(request), "");
}

} // namespace backplate
