#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <iostream>
#include <random>

#include "catalog/cells/code_pages.h"
#include "tests/catalog/cells/zipped.h"
#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;

namespace {

using Random = std::mt19937;
using Row = std::vector<std::string>;

struct Kind {
    const char* signal;
    std::array<const char*, 6> type; ///< by language: en, de, fr, es, it, pl
    const char* electrics;
};

// Words of the trade in six languages: common practice, no source.
constexpr std::array kinds{
    Kind{"DI",
         {"Digital Input", "DE", "Entrée TOR", "ED", "Ingresso digitale", "Wejście cyfrowe"},
         "24 VDC"},
    Kind{"DO", {"DO", "DA", "Sortie TOR", "SD", "Uscita digitale", "Wyjście cyfrowe"}, "24 VDC"},
    Kind{"DO_RELAY",
         {"D.O.", "DA", "Sortie TOR", "SD", "Uscita digitale", "Wyjście cyfrowe"},
         "Relay"},
    Kind{"AI_MA", {"Analog Input", "AE", "Entrée analogique", "EA", "AI", "AI"}, "4-20 mA"},
    Kind{"AI_V", {"A/I", "AE", "Entrée analogique", "EA", "AI", "AI"}, "0-10 V"},
    Kind{"AO_MA", {"AO", "AA", "Sortie analogique", "SA", "AO", "AO"}, "4..20mA"},
    Kind{"RTD", {"RTD", "AE", "Entrée analogique", "EA", "AI", "AI"}, "Pt100 3-wire"},
    Kind{"TC", {"TC", "AE", "Entrée analogique", "EA", "AI", "AI"}, "Type K"},
    Kind{"CNT", {"Counter", "Zähler", "Comptage", "Contador", "Contatore", "CNT"}, ""}};

struct Language {
    Row headings; ///< tag, description, type, electrics, panel, quantity, remarks
    const char *spare, *total, *code_page;
};
const std::array<Language, 6> languages{
    Language{{"Tag", "Description", "I/O Type", "Signal", "Panel", "Qty", "Remarks"},
             "Spare",
             "Total",
             "windows-1252"},
    Language{{"BMK", "Bezeichnung", "Signalart", "Bereich", "Schrank", "Menge", "Bemerkung"},
             "Reserve",
             "Summe",
             "windows-1252"},
    Language{{"Repère", "Désignation", "Type E/S", "Nature du signal", "Armoire", "Quantité",
              "Observations"},
             "Réserve",
             "Somme",
             "windows-1252"},
    Language{{"Etiqueta", "Descripción", "Tipo de señal", "Rango", "Cuadro", "Cantidad",
              "Observaciones"},
             "Reserva",
             "Total",
             "windows-1252"},
    Language{{"Sigla", "Descrizione", "Tipo I/O", "Campo", "Quadro", "Quantità", "Note"},
             "Riserva",
             "Totale",
             "windows-1252"},
    Language{{"Oznaczenie", "Opis", "Typ sygnału", "Sygnał", "Szafa", "Ilość", "Uwagi"},
             "Rezerwa",
             "Razem",
             "windows-1250"}};

int pick(Random& random, int least, int most) {
    return std::uniform_int_distribution<int>(least, most)(random);
}

/// A list of random points in a random layout, and what it holds.
struct Made {
    std::string bytes;
    PanelCounts panels;
    SignalCounts spare;
    std::size_t rows = 0;
};

class Maker {
public:
    explicit Maker(unsigned seed)
        : random_(seed), which_(static_cast<std::size_t>(pick(random_, 0, 5))),
          language_(languages[which_]), order_{0, 1, 2, 3, 4, 5, 6} {
        std::ranges::shuffle(order_, random_);
        has_quantity_ = pick(random_, 0, 1) == 1;
        by_section_ = pick(random_, 0, 3) == 0;
    }

    Made make() {
        for (int i = pick(random_, 0, 4); i > 0; --i) noise_above();
        heading_ = cells(language_.headings);
        add(heading_);
        const int boxes = pick(random_, 1, 3);
        for (int box = 1; box <= boxes; ++box) {
            const std::string panel = "CP-" + std::to_string(box);
            if (by_section_) add({std::string("PANEL ") + panel});
            for (int i = pick(random_, 1, 12); i > 0; --i) row(panel);
        }
        if (pick(random_, 0, 1) == 1) add_total();
        const int form = pick(random_, 0, 3);
        while (form > 1 && rows_.back().empty()) rows_.pop_back(); // no rows of a workbook
        made_.rows = rows_.size();
        made_.bytes = form == 2 ? xlsx() : form == 3 ? ods() : encoded(text());
        return std::move(made_);
    }

private:
    /// Texts by role in the order of the columns; unused roles left out.
    Row cells(const Row& by_role) const {
        Row row;
        for (const std::size_t role : order_) {
            if ((role == 4 && by_section_) || (role == 5 && !has_quantity_)) continue;
            row.push_back(by_role[role]);
        }
        return row;
    }

    void add(Row row) { rows_.push_back(std::move(row)); }

    void noise_above() {
        add(pick(random_, 0, 1) == 0 ? Row{} : Row{"Plant of the north, stage 2"});
    }

    void row(const std::string& panel) {
        const int noise = pick(random_, 0, 19);
        if (noise == 0) return add({});
        if (noise == 1) return add(heading_);
        if (noise == 2) return add_point(panel, false);
        if (noise == 3) return add(cells({tag(), "Trend", "Soft Link", "", panel, "", ""}));
        add_point(panel, true);
    }

    std::string tag() { return "T-" + std::to_string(++tags_); }

    void add_point(const std::string& panel, bool used) {
        const Kind& kind = kinds[static_cast<std::size_t>(pick(random_, 0, int(kinds.size()) - 1))];
        const int count = has_quantity_ ? pick(random_, 1, 9) : 1;
        if (used)
            made_.panels[panel][kind.signal] += count;
        else
            made_.spare[kind.signal] += count;
        const std::string name = used ? tag() : std::string();
        const std::string text = used ? "Point, \"" + name + "\"" : language_.spare;
        const std::string pieces =
            count == 1 && pick(random_, 0, 1) == 0 ? "" : std::to_string(count);
        add(cells({name, text, kind.type[which_], kind.electrics, panel, pieces, ""}));
    }

    void add_total() {
        int sum = 0;
        for (const auto& [panel, counts] : made_.panels)
            for (const auto& [signal, count] : counts) sum += count;
        Row total(cells(language_.headings).size());
        total.front() = language_.total;
        total.back() = std::to_string(sum);
        if (total.size() > 1) add(total);
    }

    static std::string escaped(const std::string& cell) {
        std::string text;
        for (const char c : cell)
            text += c == '&' ? "&amp;" : c == '<' ? "&lt;" : std::string(1, c);
        return text;
    }

    std::string xlsx() const {
        std::string sheet = "<worksheet><sheetData>";
        for (const Row& row : rows_) {
            sheet += "<row>";
            for (const std::string& cell : row)
                sheet += "<c t='inlineStr'><is><t>" + escaped(cell) + "</t></is></c>";
            sheet += "</row>";
        }
        return tests::zipped(tests::workbook_parts(sheet + "</sheetData></worksheet>", "", ""));
    }

    std::string ods() const {
        const std::string names = "urn:oasis:names:tc:opendocument:xmlns:";
        std::string content = "<o:document-content xmlns:o='" + names + "office:1.0' xmlns:t='" +
                              names + "table:1.0' xmlns:x='" + names +
                              "text:1.0'><o:body><o:spreadsheet><t:table t:name='List'>";
        for (const Row& row : rows_) {
            content += "<t:table-row>";
            for (const std::string& cell : row)
                content += "<t:table-cell><x:p>" + escaped(cell) + "</x:p></t:table-cell>";
            content += "</t:table-row>";
        }
        return tests::zipped(
            tests::ods_parts(content + "</t:table></o:spreadsheet></o:body></o:document-content>"));
    }

    std::string text() {
        const char delimiter = ",;\t|"[pick(random_, 0, 3)];
        const char* line_end = pick(random_, 0, 1) == 0 ? "\n" : "\r\n";
        std::string text;
        for (const Row& row : rows_) {
            for (std::size_t i = 0; i < row.size(); ++i) {
                if (i > 0) text += delimiter;
                append_quoted(text, row[i], delimiter);
            }
            text += line_end;
        }
        return text;
    }

    void append_quoted(std::string& text, const std::string& cell, char delimiter) {
        const bool needed =
            cell.find_first_of(std::string("\"\n") + delimiter) != std::string::npos;
        if (!needed && pick(random_, 0, 3) > 0) {
            text += cell;
            return;
        }
        text += '"';
        for (const char c : cell) text.append(c == '"' ? 2 : 1, c);
        text += '"';
    }

    std::string encoded(const std::string& utf8) {
        const int way = pick(random_, 0, 3);
        if (way == 0) return utf8;
        if (way == 1) return "\xEF\xBB\xBF" + utf8;
        return way == 2 ? utf16(utf8) : paged(utf8);
    }

    static std::u16string wide(const std::string& utf8) {
        std::u16string text;
        for (std::size_t i = 0; i < utf8.size();) {
            const auto lead = static_cast<unsigned char>(utf8[i++]);
            char16_t point = lead < 0x80 ? lead : lead < 0xE0 ? lead & 0x1F : lead & 0x0F;
            for (int more = lead < 0x80 ? 0 : lead < 0xE0 ? 1 : 2; more > 0; --more)
                point = static_cast<char16_t>(point << 6 |
                                              (static_cast<unsigned char>(utf8[i++]) & 0x3F));
            text += point;
        }
        return text;
    }

    std::string utf16(const std::string& utf8) {
        const bool little = pick(random_, 0, 1) == 0;
        std::string bytes = little ? "\xFF\xFE" : "\xFE\xFF";
        for (const char16_t unit : wide(utf8)) {
            const char low = static_cast<char>(unit & 0xFF), high = static_cast<char>(unit >> 8);
            bytes += little ? low : high;
            bytes += little ? high : low;
        }
        return bytes;
    }

    std::string paged(const std::string& utf8) const {
        std::string bytes = utf8;
        for (int byte = 0xFF; byte >= 0x80; --byte) {
            const std::string one(1, static_cast<char>(byte));
            const std::string from = from_code_page(one, language_.code_page);
            std::string next;
            for (std::size_t at = 0; at < bytes.size();) {
                const bool here = bytes.compare(at, from.size(), from) == 0;
                next += here ? "\x01" + one : bytes.substr(at, 1);
                at += here ? from.size() : 1;
            }
            bytes = std::move(next);
        }
        std::erase(bytes, '\x01');
        return bytes;
    }

    Random random_;
    std::size_t which_;
    const Language& language_;
    std::vector<std::size_t> order_;
    bool has_quantity_ = false, by_section_ = false;
    int tags_ = 0;
    Row heading_;
    std::vector<Row> rows_;
    Made made_;
};

} // namespace

TEST_CASE("random points in random layouts are read back") {
    constexpr unsigned lists = 600;
    ListHints hints;
    hints.words = list_words(tests::starter_rules());
    std::size_t rows = 0;
    for (unsigned seed = 1; seed <= lists; ++seed) {
        Made made = Maker(seed).make();
        INFO("seed " << seed << "\n" << made.bytes);
        const ListFile file = read_list_file("list", made.bytes, hints);
        const Takeoff takeoff = take_off(file, tests::starter_rules(), {});
        for (const RowRemark& refused : takeoff.refuse_rows)
            INFO("refused " << refused.row << " " << refused.reason);
        REQUIRE(takeoff.panels() == made.panels);
        REQUIRE(takeoff.spare_rows == made.spare);
        REQUIRE(takeoff.ask.empty());
        REQUIRE(takeoff.refuse_rows.empty());
        REQUIRE(takeoff.total_mismatches.empty());
        REQUIRE(takeoff.rows.size() == made.rows);
        rows += made.rows;
    }
    std::cout << lists << " random lists of " << rows << " rows judged\n";
}
