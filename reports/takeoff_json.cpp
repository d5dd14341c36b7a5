#include "reports/takeoff_json.h"

#include <algorithm>
#include <array>

#include "pricing/request/node_values.h"
#include "reports/json_writer.h"

namespace backplate {
namespace {

struct EncodingName {
    std::string_view word, text;
};

constexpr auto encodings =
    std::array{EncodingName{"utf-8-bom", "utf-8-sig"}, EncodingName{"utf-16-le", "utf-16-le (BOM)"},
               EncodingName{"utf-16-be", "utf-16-be (BOM)"}};

std::string encoding_text(const std::string& word) {
    const auto found = std::ranges::find(encodings, word, &EncodingName::word);
    return found == encodings.end() ? word : std::string(found->text);
}

void write_number(JsonWriter& json, std::string_view key, int value) {
    json.number(key, std::to_string(value));
}

void write_numbers(JsonWriter& json, std::string_view key, const std::vector<int>& values) {
    json.begin_list(key);
    for (const int value : values) write_number(json, {}, value);
    json.end_list();
}

void write_texts(JsonWriter& json, std::string_view key, const std::vector<std::string>& texts) {
    json.begin_list(key);
    for (const std::string& text : texts) json.text({}, text);
    json.end_list();
}

void write_counts(JsonWriter& json, std::string_view key, const SignalCounts& counts) {
    json.begin_object(key);
    for (const auto& [name, count] : counts) write_number(json, name, count);
    json.end_object();
}

/// Counts as one line of JSON.
std::string counts_line(const SignalCounts& counts) {
    std::string line;
    for (const auto& [name, count] : counts)
        line += (line.empty() ? "{" : ", ") + json_quoted(name) + ": " + std::to_string(count);
    return line.empty() ? "{}" : line + "}";
}

/// The key of points without a panel is the empty text, so members are written whole.
void write_panels(JsonWriter& json, std::string_view key, const PanelCounts& panels) {
    json.begin_object(key);
    for (const auto& [panel, counts] : panels)
        json.number({}, json_quoted(panel) + ": " + counts_line(counts));
    json.end_object();
}

void write_place(JsonWriter& json, const std::string& sheet, int row) {
    if (row > 0) write_number(json, "row", row);
    if (!sheet.empty()) json.text("sheet", sheet);
}

void write_proposal(JsonWriter& json, const OpenQuestion& question) {
    if (!question.proposed_panel.empty()) {
        json.begin_object("proposal");
        json.text("panel", question.proposed_panel);
        json.end_object();
    } else if (!question.proposed_word.empty()) {
        json.text("proposal", question.proposed_word);
    } else if (question.proposal) {
        json.number("proposal", counts_line(*question.proposal));
    } else {
        json.null("proposal");
    }
}

void write_questions(JsonWriter& json, const std::vector<OpenQuestion>& questions) {
    json.begin_list("ask");
    for (const OpenQuestion& question : questions) {
        json.begin_object();
        write_place(json, question.sheet, question.row);
        json.text("reason", question.reason);
        write_proposal(json, question);
        if (!question.panel.empty()) json.text("panel", question.panel);
        if (!question.text.empty()) json.text("text", question.text);
        if (!question.last_time.empty()) json.text("last_time", question.last_time);
        json.end_object();
    }
    json.end_list();
}

void write_remarks(JsonWriter& json, std::string_view key, const std::vector<RowRemark>& remarks) {
    json.begin_list(key);
    for (const RowRemark& remark : remarks) {
        json.begin_object();
        write_place(json, remark.sheet, remark.row);
        json.text("reason", remark.reason);
        json.end_object();
    }
    json.end_list();
}

/// A total of all points as a number, totals by kind as an object.
void write_total(JsonWriter& json, std::string_view key, const std::map<std::string, int>& total) {
    if (total.size() == 1 && total.begin()->first.empty())
        write_number(json, key, total.begin()->second);
    else
        write_counts(json, key, total);
}

void write_file_warnings(JsonWriter& json, const Takeoff& takeoff) {
    json.begin_list("file_warnings");
    for (const TotalMismatch& mismatch : takeoff.total_mismatches) {
        json.begin_object();
        json.text("reason", "total_mismatch");
        write_place(json, mismatch.sheet, mismatch.row);
        if (mismatch.row == 0) json.text("panel", mismatch.panel);
        write_total(json, "stated", mismatch.stated);
        write_total(json, "counted", mismatch.counted);
        json.end_object();
    }
    for (const FileNote& note : takeoff.notes) {
        json.begin_object();
        json.text("reason", note.reason);
        if (!note.sheet.empty()) json.text("sheet", note.sheet);
        if (!note.rows.empty()) write_numbers(json, "rows", note.rows);
        json.text("text", note.text);
        json.end_object();
    }
    json.end_list();
}

void write_table(JsonWriter& json, const ReadTable& table) {
    if (table.header_rows.size() == 1) write_number(json, "header_row", table.header_rows[0]);
    if (table.header_rows.size() > 1) write_numbers(json, "header_rows", table.header_rows);
    write_number(json, "first_column", table.first_column);
    json.text("layout", table.layout);
    if (!table.panel_from.empty()) json.text("panel_from", table.panel_from);
    if (!table.quantity_column.empty()) json.text("quantity_column", table.quantity_column);
    if (table.merged_panel) json.flag("merged_panel", true);
    if (table.decimal_comma) json.flag("decimal_comma", true);
}

void write_tables(JsonWriter& json, const Takeoff& takeoff) {
    std::vector<std::string> sheets;
    for (const ReadTable& table : takeoff.tables) sheets.push_back(table.sheet);
    if (sheets.size() == 1 && !sheets[0].empty()) json.text("sheet", sheets[0]);
    if (sheets.size() > 1) write_texts(json, "sheets", sheets);
    if (!takeoff.ignored_sheets.empty() && !sheets.empty() && !sheets[0].empty())
        write_texts(json, "ignored_sheets", takeoff.ignored_sheets);
    if (!takeoff.hidden_sheets.empty()) write_texts(json, "hidden_sheets", takeoff.hidden_sheets);
    if (sheets.size() == 1) write_table(json, takeoff.tables[0]);
    if (sheets.size() < 2) return;
    const std::string& panel_from = takeoff.tables[0].panel_from;
    if (std::ranges::all_of(takeoff.tables,
                            [&](const auto& table) { return table.panel_from == panel_from; }))
        json.text("panel_from", panel_from);
    json.begin_list("tables");
    for (const ReadTable& table : takeoff.tables) {
        json.begin_object();
        json.text("sheet", table.sheet);
        write_table(json, table);
        json.end_object();
    }
    json.end_list();
}

void write_reading(JsonWriter& json, const Takeoff& takeoff, const ListReading& reading) {
    json.begin_object("read");
    if (!reading.encoding.empty()) {
        json.text("encoding", encoding_text(reading.encoding));
        json.text("delimiter", reading.delimiter == "\t" ? "\\t" : reading.delimiter);
        if (!reading.line_ends.empty()) json.text("eol", reading.line_ends);
    }
    write_tables(json, takeoff);
    json.end_object();
}

/// Rows that were left out, by reason and sheet.
void write_left_out(JsonWriter& json, const Takeoff& takeoff) {
    std::map<std::pair<std::string, std::string>, std::vector<int>> rows;
    for (const RowOutcome& row : takeoff.rows)
        if (row.is == RowOutcome::Is::not_counted) rows[{row.reason, row.sheet}].push_back(row.row);
    json.begin_list("left_out");
    for (const auto& [key, numbers] : rows) {
        json.begin_object();
        json.text("reason", key.first);
        if (!key.second.empty()) json.text("sheet", key.second);
        write_numbers(json, "rows", numbers);
        json.end_object();
    }
    json.end_list();
}

void write_assemblies(JsonWriter& json, const std::vector<ProposedAssembly>& assemblies) {
    json.begin_list("assemblies_proposed");
    for (const ProposedAssembly& each : assemblies) {
        json.begin_object();
        write_texts(json, "names", each.assemblies);
        json.text("panel", each.panel);
        write_number(json, "quantity", static_cast<int>(each.tags.size()));
        write_texts(json, "tags", each.tags);
        json.end_object();
    }
    json.end_list();
}

std::string outcome_of(const Takeoff& takeoff) {
    const bool of_file = std::ranges::any_of(takeoff.ask, [](const OpenQuestion& question) {
        return question.row == 0 && question.sheet.empty();
    });
    if (of_file) return "ask_file";
    return takeoff.has_questions() ? "import_with_questions" : "import";
}

void write_result(JsonWriter& json, const Takeoff& takeoff) {
    write_counts(json, "counts", takeoff.counts());
    write_panels(json, "panels", takeoff.panels());
    write_counts(json, "spare_rows", takeoff.spare_rows);
    write_counts(json, "bus_rows", takeoff.bus_rows);
    write_number(json, "rows_read", static_cast<int>(takeoff.rows.size()));
    write_number(json, "rows_counted", takeoff.rows_counted);
    write_counts(json, "rows_not_counted", takeoff.rows_not_counted);
    write_left_out(json, takeoff);
    write_questions(json, takeoff.ask);
    write_remarks(json, "refuse_rows", takeoff.refuse_rows);
    write_remarks(json, "warn", takeoff.warn);
    write_file_warnings(json, takeoff);
    write_counts(json, "counts_if_proposals_accepted", takeoff.counts_if_accepted());
    write_panels(json, "panels_if_proposals_accepted", takeoff.panels_if_accepted());
    if (!takeoff.totals_check) return;
    json.begin_object("totals_check");
    write_counts(json, "stated", takeoff.totals_check->stated);
    json.flag("agree", takeoff.totals_check->agree);
    json.end_object();
}

} // namespace

std::string takeoff_json(const Takeoff& takeoff, const ListReading& reading,
                         const std::vector<ProposedAssembly>& assemblies) {
    JsonWriter json;
    json.begin_object();
    json.text("format", "backplate-takeoff/1");
    json.text("file", reading.file);
    json.text("outcome", outcome_of(takeoff));
    write_reading(json, takeoff, reading);
    write_result(json, takeoff);
    write_assemblies(json, assemblies);
    json.end_object();
    return json.take();
}

std::string refused_takeoff_json(const std::string& file, const std::string& reason,
                                 const std::string& text) {
    JsonWriter json;
    json.begin_object();
    json.text("format", "backplate-takeoff/1");
    json.text("file", file);
    json.text("outcome", "refuse_file");
    json.text("reason", reason);
    json.text("text", text);
    json.begin_object("read");
    json.end_object();
    write_result(json, {});
    json.end_object();
    return json.take();
}

} // namespace backplate
