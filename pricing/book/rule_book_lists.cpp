#include <algorithm>
#include <array>

#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

void read_signals(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("signals")) {
        Signal signal;
        signal.key = row.key();
        signal.meaning = row.cell("meaning");
        signal.wiring = row.cell("wiring");
        signal.amps = row.number("amps");
        signal.volts_iec = row.number("volts_iec");
        signal.volts_north_america = row.number("volts_north_america");
        signal.volts_low = row.number("volts_low");
        signal.volts_high = row.number("volts_high");
        signal.fed_from_box = row.flag("fed_from_box");
        if (!row.cell("fed_from_box_with_via").empty())
            signal.fed_from_box_with_via = row.flag("fed_from_box_with_via");
        signal.power = row.cell("power");
        signal.work_class = row.cell("work_class");
        signal.mains_level = row.cell("level") == "mains";
        signal.special_module = row.flag("special");
        signal.shielded = row.flag("shielded");
        book.signals.push_back(std::move(signal));
    }
    if (book.signals.empty())
        reader.fault("signals", "", "", "has no active row, expected at least one signal");
}

double number_or_0(const RowView& row, std::string_view column) {
    const std::optional<Decimal> number = row.number(column);
    return number ? number->number() : 0;
}

Interface interface_of(const RowView& row) {
    Interface result;
    result.key = row.key();
    result.via = row.cell("via");
    result.signal = row.cell("signal");
    result.module_signal = row.cell("module_signal");
    result.part_kind = row.cell("part_kind");
    result.function = row.cell("function");
    result.plain = row.flag("plain") || result.function.empty();
    result.parts_per_channel = number_or_0(row, "parts_per_channel");
    result.terminal_function = row.cell("terminal_function");
    result.terminals_change = row.rule("terminals_change", "terminals");
    result.wires_change = row.rule("wires_change", "wires");
    result.heat_w = row.rule("heat_w", "W");
    result.current_ma = row.rule("current_ma", "mA");
    result.width_mm = number_or_0(row, "width_mm");
    result.drop_v = row.rule("drop_v", "V");
    result.feeds_loop = row.flag("feeds_loop");
    result.isolates = row.flag("isolates");
    return result;
}

void read_interfaces(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("interfaces")) {
        const std::string module = row.cell("module_signal");
        for (const std::string_view column : {"signal", "module_signal"}) {
            const std::string cell = row.cell(column);
            if (!(cell == "same" && column == "module_signal") && !book.find_signal(cell))
                reader.fault("interfaces", row.key(), column,
                             "'" + cell + "', expected a row of the table signals");
        }
        if (!row.cell("part_kind").empty() && !row.number("parts_per_channel"))
            reader.fault("interfaces", row.key(), "parts_per_channel",
                         "'', expected a number where the row takes a part");
        book.interfaces.push_back(interface_of(row));
    }
}

void read_terminal_functions(const RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("terminal_functions"))
        book.terminal_functions.push_back({row.cell("channel"), row.cell("function"),
                                           static_cast<int>(row.number("pieces")->number())});
}

void read_links(const RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("links"))
        book.links.push_back(
            {row.key(), row.value_rule(), row.cell("part_kind"), row.cell("function")});
}

void read_door_openings(const RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("door_openings"))
        book.door_openings.push_back(
            {row.key(), row.cell("opening"), row.cell("mounted_as") == "door_device"});
}

constexpr auto brought = std::array<std::string_view, 7>{"points", "part",    "wires",  "terminals",
                                                         "sheets", "minutes", "network"};

AssemblyRow assembly_row(const RowView& row) {
    AssemblyRow result;
    result.assembly = row.cell("assembly");
    const auto place = std::find(brought.begin(), brought.end(), row.cell("brings"));
    result.brings = static_cast<AssemblyRow::Brings>(place - brought.begin());
    const std::string occurrence = row.cell("occurrence");
    if (occurrence == "first") result.occurrence = AssemblyRow::Occurrence::first;
    if (occurrence == "repeat") result.occurrence = AssemblyRow::Occurrence::repeat;
    result.count = row.value_rule();
    result.signal = row.cell("signal");
    result.wiring = row.cell("wiring");
    result.via = row.cell("via") == "direct" ? "" : row.cell("via");
    result.fed_from_box = row.flag("fed_from_box");
    result.function = row.cell("function");
    result.where = row.cell("where");
    result.work_class = row.cell("class");
    result.width_mm = number_or_0(row, "width_mm");
    result.heat_w = number_or_0(row, "heat_w");
    result.current_ma = number_or_0(row, "current_ma");
    return result;
}

void read_assemblies(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("assemblies")) {
        AssemblyRow each = assembly_row(row);
        if (each.brings == AssemblyRow::Brings::points && !book.find_signal(each.signal))
            reader.fault("assemblies", row.key(), "signal",
                         "'" + each.signal + "', expected a row of the table signals");
        if (each.brings == AssemblyRow::Brings::part && each.function.empty())
            reader.fault("assemblies", row.key(), "function", "is missing, expected the part's");
        book.assemblies.push_back(std::move(each));
    }
}

std::optional<int> whole(const RowView& row, std::string_view column) {
    const std::optional<Decimal> number = row.number(column);
    if (!number) return std::nullopt;
    return static_cast<int>(number->digits);
}

void read_defaults(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("defaults")) {
        DefaultRow each;
        each.key = row.key();
        each.type = row.cell("type");
        each.unit = row.cell("unit");
        each.default_iec = row.cell("default_iec");
        each.default_north_america = row.cell("default_north_america");
        each.minimum = row.number("minimum");
        each.maximum = row.number("maximum");
        each.decimals = whole(row, "decimals");
        each.assumption = row.flag("assumption");
        each.group = row.cell("group");
        book.defaults.push_back(std::move(each));
    }
    if (book.defaults.empty())
        reader.fault("defaults", "", "", "has no active row, expected the keys of a request");
}

std::vector<Spelling> read_spellings(const RuleReader& reader, std::string_view table) {
    std::vector<Spelling> result;
    for (const RowView& row : reader.rows(table))
        result.push_back({row.key(), row.cell("meaning"), row.cell("text")});
    return result;
}

Severity severity_of(const std::string& word) {
    if (word == "stop") return Severity::stop;
    return word == "warning" ? Severity::warning : Severity::note;
}

void read_findings(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("findings"))
        book.findings.push_back({row.key(), row.cell("title"), severity_of(row.cell("severity")),
                                 row.number("limit_value"), std::nullopt, row.cell("text"),
                                 row.cell("where"), row.flag("caution")});
    for (const RowView& row : reader.rows("finding_limits")) {
        const auto finding =
            std::find_if(book.findings.begin(), book.findings.end(),
                         [&](const FindingRow& each) { return each.code == row.key(); });
        if (finding != book.findings.end())
            finding->second_limit = row.number("value");
        else
            reader.fault("finding_limits", row.key(), "",
                         "'" + row.key() + "', expected a row of the table findings");
    }
}

void read_assumptions(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("assumptions"))
        book.assumption_texts.emplace(row.key(), row.cell("text"));
    for (const DefaultRow& each : book.defaults)
        if (each.assumption && !book.assumption_texts.contains(each.group))
            reader.fault("defaults", each.key, "group",
                         "'" + each.group + "', expected a row of the table assumptions");
}

/// Rows of plain values whose value is no number.
void read_texts(const RuleReader& reader, RuleBook& book) {
    for (const TableSpec& spec : rule_schema()) {
        if (!spec.values) continue;
        for (const RowView& row : reader.rows(spec.name))
            if (!row.cell("value").empty() && !row.number("value"))
                book.texts.emplace(row.id(), row.cell("value"));
    }
}

bool is_pattern(const std::string& word) { return word.size() > 1 && word.front() == '/'; }

/// Whether the words of `key`, where they are plain ones, allow `text`.
bool allows(const RuleBook& book, const std::string& key, const std::string& text) {
    bool any = true;
    for (const WordRow& row : book.words) {
        if (row.key != key) continue;
        if (is_pattern(row.word) || row.word == text) return true;
        any = false;
    }
    return any;
}

/// Defaults of the form `rule:table/row` take the row's value.
void read_referred(RuleReader& reader, RuleBook& book) {
    constexpr std::string_view prefix = "rule:";
    for (const DefaultRow& each : book.defaults) {
        for (const auto& [column, text] : {std::pair{"default_iec", each.default_iec},
                                           {"default_north_america", each.default_north_america}}) {
            if (!text.starts_with(prefix)) continue;
            const std::string id = text.substr(prefix.size());
            const std::size_t stroke = id.find('/');
            const auto row = stroke == std::string::npos
                                 ? std::nullopt
                                 : reader.row(id.substr(0, stroke), id.substr(stroke + 1));
            const std::string value = row ? row->cell("value") : "";
            if (!value.empty() && allows(book, each.key, value))
                book.texts.emplace(id, value);
            else if (!value.empty())
                reader.fault(id.substr(0, stroke), row->key(), "value",
                             "'" + value + "', expected a word of the table words, key " +
                                 each.key);
            else
                reader.fault("defaults", each.key, column,
                             "'" + text + "', expected an active row with a value");
        }
    }
}

} // namespace

void read_lists(RuleReader& reader, RuleBook& book) {
    read_signals(reader, book);
    read_interfaces(reader, book);
    read_terminal_functions(reader, book);
    read_links(reader, book);
    read_door_openings(reader, book);
    read_assemblies(reader, book);
    read_defaults(reader, book);
    for (const RowView& row : reader.rows("words"))
        book.words.push_back({row.cell("key"), row.cell("word"), row.cell("applies_to")});
    book.headings = read_spellings(reader, "headings");
    book.spellings = read_spellings(reader, "spellings");
    read_findings(reader, book);
    read_assumptions(reader, book);
    for (const RowView& row : reader.rows("ratios"))
        book.ratios.push_back({row.key(), row.cell("unit"), row.number("low"), row.number("high")});
    for (const RowView& row : reader.rows("currencies"))
        book.currency_digits.emplace(row.key(), whole(row, "digits").value_or(2));
    read_texts(reader, book);
    read_referred(reader, book);
}

} // namespace backplate
