#include "reports/takeoff_json.h"

#include <algorithm>
#include <array>

#include "pricing/request/node_values.h"
#include "reports/json_writer.h"

namespace backplate {
namespace {

struct Phrase {
    std::string_view word, text;
};

constexpr std::array encodings{
    Phrase{"utf-8-bom", "utf-8-sig"}, Phrase{"utf-16-le", "utf-16-le (BOM)"},
    Phrase{"utf-16-be", "utf-16-be (BOM)"}, Phrase{"cp1252", "windows-1252"}};

constexpr std::array reasons{
    Phrase{"ai_range_missing", "analogue input without its range"},
    Phrase{"ao_range_missing", "analogue output without its range"},
    Phrase{"type_blank", "the type is blank"},
    Phrase{"type_unknown", "the type is a word the spellings do not hold"},
    Phrase{"io_unspecific", "the type does not say which inputs or outputs"},
    Phrase{"contradiction", "type and electrics do not go together"},
    Phrase{"do_mains", "mains output without the word relay"},
    Phrase{"load_cell", "load cell: bridge input or a transmitter?"},
    Phrase{"dual_channel", "two safety channels or one?"},
    Phrase{"tag_range", "one row for a range of tags"},
    Phrase{"qty_vs_range", "quantity and range of tags differ"},
    Phrase{"exact_duplicate", "entirely equal to a row above"},
    Phrase{"soft_suspect", "a wired type, but memory or not wired"},
    Phrase{"fill_down_panel", "counted, but without the panel that a row above has"},
    Phrase{"hold", "on hold"},
    Phrase{"future", "for the future"},
    Phrase{"by_others", "by others"},
    Phrase{"qty_not_integer", "the quantity is no whole number from 0 to 100000"},
    Phrase{"qty_negative", "the quantity is negative"},
    Phrase{"qty_zero", "the quantity is zero"},
    Phrase{"error_cell_qty", "the quantity is an error value"},
    Phrase{"error_cell_type", "the type is an error value"},
    Phrase{"error_cell_text", "an error value in the row"},
    Phrase{"too_many_fields", "more fields than the heading"},
    Phrase{"short_row", "fewer fields than the heading"},
    Phrase{"deleted", "marked as deleted, not counted"},
    Phrase{"dup_tag", "the tag stands above with the same signal"},
    Phrase{"tag_is_date", "the tag looks like a date"},
    Phrase{"tag_is_number", "the tag looks like a number a spreadsheet made"},
    Phrase{"tag_two_signals", "one tag for two signals"}};

template <std::size_t size>
std::string text_of(const std::array<Phrase, size>& phrases, const std::string& word) {
    const auto found = std::ranges::find(phrases, word, &Phrase::word);
    return found == phrases.end() ? word : std::string(found->text);
}

void write_counts(JsonWriter& json, std::string_view key, const SignalCounts& counts) {
    json.begin_object(key);
    for (const auto& [name, count] : counts) json.number(name, std::to_string(count));
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

void write_questions(JsonWriter& json, const std::vector<OpenQuestion>& questions) {
    json.begin_list("ask");
    for (const OpenQuestion& question : questions) {
        json.begin_object();
        json.number("row", std::to_string(question.row));
        json.text("reason", question.reason);
        if (!question.proposed_panel.empty()) {
            json.begin_object("proposal");
            json.text("panel", question.proposed_panel);
            json.end_object();
        } else if (question.proposal) {
            json.number("proposal", counts_line(*question.proposal));
        } else {
            json.null("proposal");
        }
        if (!question.panel.empty()) json.text("panel", question.panel);
        json.end_object();
    }
    json.end_list();
}

void write_remarks(JsonWriter& json, std::string_view key, const std::vector<RowRemark>& remarks) {
    json.begin_list(key);
    for (const RowRemark& remark : remarks) {
        json.begin_object();
        json.number("row", std::to_string(remark.row));
        json.text("reason", remark.reason);
        json.end_object();
    }
    json.end_list();
}

void write_file_warnings(JsonWriter& json, const std::vector<TotalMismatch>& mismatches) {
    json.begin_list("file_warnings");
    for (const TotalMismatch& mismatch : mismatches) {
        json.begin_object();
        json.text("reason", "total_mismatch");
        json.number("row", std::to_string(mismatch.row));
        json.number("stated", std::to_string(mismatch.stated));
        json.number("counted", std::to_string(mismatch.counted));
        json.end_object();
    }
    json.end_list();
}

void write_reading(JsonWriter& json, const Takeoff& takeoff, const ListReading& reading) {
    json.begin_object("read");
    json.text("encoding", text_of(encodings, reading.encoding));
    json.text("delimiter", reading.delimiter == "\t" ? "\\t" : reading.delimiter);
    json.number("header_row", std::to_string(takeoff.header_row.value_or(0)));
    json.end_object();
}

} // namespace

std::string takeoff_reason(const std::string& reason) { return text_of(reasons, reason); }

std::string takeoff_json(const Takeoff& takeoff, const ListReading& reading) {
    JsonWriter json;
    json.begin_object();
    json.text("format", "backplate-takeoff/1");
    json.text("file", reading.file);
    json.text("outcome", takeoff.has_questions() ? "import_with_questions" : "import");
    write_reading(json, takeoff, reading);
    write_counts(json, "counts", takeoff.counts());
    write_panels(json, "panels", takeoff.panels());
    write_counts(json, "spare_rows", takeoff.spare_rows);
    write_counts(json, "bus_rows", takeoff.bus_rows);
    json.number("rows_counted", std::to_string(takeoff.rows_counted));
    write_counts(json, "rows_not_counted", takeoff.rows_not_counted);
    write_questions(json, takeoff.ask);
    write_remarks(json, "refuse_rows", takeoff.refuse_rows);
    write_remarks(json, "warn", takeoff.warn);
    write_file_warnings(json, takeoff.total_mismatches);
    write_counts(json, "counts_if_proposals_accepted", takeoff.counts_if_accepted());
    write_panels(json, "panels_if_proposals_accepted", takeoff.panels_if_accepted());
    json.end_object();
    return json.take();
}

} // namespace backplate
