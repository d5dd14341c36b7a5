#include <catch2/catch.hpp>

#include "catalog/cells/list_file.h"
#include "catalog/cells/sheet_builder.h"
#include "catalog/cells/xlsx_styles.h"
#include "pricing/values/work.h"
#include "tests/catalog/cells/zipped.h"

using namespace backplate;
using namespace backplate::tests;

namespace {

/// A workbook of one sheet with these contents of its worksheet element.
Parts workbook(const std::string& sheet) {
    return workbook_parts("<worksheet>" + sheet + "</worksheet>", "", "");
}

std::string xlsx(const std::string& rows) {
    return zipped(workbook("<sheetData>" + rows + "</sheetData>"));
}

std::string cell(const std::string& place, const std::string& text) {
    return "<c r='" + place + "' t='inlineStr'><is><t>" + text + "</t></is></c>";
}

std::string ods(const std::string& tables) {
    return zipped(ods_parts("<o:document-content "
                            "xmlns:o='urn:oasis:names:tc:opendocument:xmlns:office:1.0' "
                            "xmlns:t='urn:oasis:names:tc:opendocument:xmlns:table:1.0' "
                            "xmlns:x='urn:oasis:names:tc:opendocument:xmlns:text:1.0'><o:body>"
                            "<o:spreadsheet>" +
                            tables + "</o:spreadsheet></o:body></o:document-content>"));
}

ListFile read(const std::string& bytes) { return read_list_file("list", bytes, {}); }

std::string refusal(const std::string& bytes) {
    try {
        read(bytes);
    } catch (const RefusedList& refused) {
        CHECK(std::string(refused.what()).starts_with("list: "));
        CHECK(std::string(refused.what()).find("expected") != std::string::npos);
        return refused.reason;
    }
    return "read";
}

} // namespace

TEST_CASE("cells of a worksheet become plain texts") {
    const auto sheet =
        read(xlsx("<row r='2'>" + cell("B2", "a &amp; b") +
                  "<c r='C2'><v>3.0</v></c><c r='D2' t='b'><v>1</v></c>"
                  "<c r='E2' t='e'><f>1/0</f><v>#DIV/0!</v></c><c r='F2'><f>A1</f></c>"
                  "<c r='G2' t='str'><f>A1</f><v></v></c><c r='H2'><v>0.1</v></c>"
                  "<c r='I2' t='d'><v>2031-05-06</v></c></row>"))
            .sheets.at(0);
    REQUIRE(sheet.rows.size() == 2);
    CHECK(sheet.rows[0].cells.empty());
    CHECK(sheet.rows[1].number == 2);
    CHECK(sheet.rows[1].cells ==
          Cells{"", "a & b", "3", "TRUE", "#DIV/0!", "", "", "0.1", "2031-05-06"});
    REQUIRE(sheet.rows[1].flaws.size() == 1);
    CHECK(sheet.rows[1].flaws[0].column == 5);
    CHECK(sheet.rows[1].flaws[0].flaw == CellFlaw::no_value);
}

// ECMA-376 part 1, 18.17.4.1: day 1 is 1900-01-01, and day 60 a 29 February that never was.
TEST_CASE("days that are kept as numbers are read by the calendar") {
    CHECK(date_text("1", false) == "1900-01-01");
    CHECK(date_text("61", false) == "1900-03-01");
    CHECK(date_text("45323", false) == "2024-02-01");
    CHECK(date_text("45323.5625", false) == "2024-02-01 13:30");
    CHECK(date_text("0.5", false) == "12:00");
    CHECK(date_text("0", true) == "1904-01-01");
    CHECK(date_text("43861", true) == "2024-02-01");
    CHECK(date_text("-1", false) == "-1");
    CHECK(is_date_format("dd/mm/yyyy"));
    CHECK_FALSE(is_date_format("0.00 \"days\""));
    CHECK_FALSE(is_date_format("[Red]0.00"));
}

TEST_CASE("escapes in cells of a worksheet are resolved") {
    CHECK(unescaped("a_x000D_b_x0041_") == "a\rbA");
    CHECK(unescaped("_x005F_x000D_") == "_x000D_");
    for (const char* plain : {"tag_x1_", "_x00", "_xD800_", "_x0000_", "_xGGGG_", "_x"})
        CHECK(unescaped(plain) == plain);
    const auto sheet =
        read(xlsx("<row r='1'>" + cell("A1", "two_x000A_lines") + "</row>")).sheets[0];
    CHECK(sheet.rows[0].cells == Cells{"two\nlines"});
}

TEST_CASE("cells of an ODS table are repeated as it says") {
    const auto sheet =
        read(ods("<t:table t:name='A'><t:table-row t:number-rows-repeated='2'>"
                 "<t:table-cell t:number-columns-repeated='2' o:value-type='float' o:value='7'>"
                 "<x:p>7.00</x:p></t:table-cell></t:table-row>"
                 "<t:table-row t:visibility='filter'><t:table-cell><x:p>a<x:s x:c='2'/>b</x:p>"
                 "<x:p>c</x:p><o:annotation><x:p>not this</x:p></o:annotation></t:table-cell>"
                 "</t:table-row><t:table-row t:number-rows-repeated='1048573'><t:table-cell "
                 "t:number-columns-repeated='16384'/></t:table-row></t:table>"))
            .sheets.at(0);
    REQUIRE(sheet.rows.size() == 3);
    CHECK(sheet.rows[0].cells == Cells{"7", "7"});
    CHECK(sheet.rows[1].cells == Cells{"7", "7"});
    CHECK(sheet.rows[2].cells == Cells{"a  b\nc"});
    CHECK(sheet.rows[2].filtered);
}

TEST_CASE("hostile workbooks are refused with a reason") {
    const std::string row = "<row r='1'>" + cell("A1", "a") + "</row>";
    CHECK(refusal(xlsx(row)) == "read");
    CHECK(refusal(xlsx(row).substr(0, 300)) == "damaged_archive");
    CHECK(refusal("\xD0\xCF\x11\xE0 old") == "old_container");
    std::string sealed = "\xD0\xCF\x11\xE0";
    for (const char c : std::string("EncryptedPackage")) sealed += {c, '\0'};
    CHECK(refusal(sealed) == "password");
    CHECK(refusal(zipped({{"a.txt", "a"}})) == "damaged_archive");
    auto parts = workbook("");
    parts.pop_back();
    CHECK(refusal(zipped(parts)) == "damaged_archive");
    CHECK(refusal(xlsx("<row r='1'><c r='A1' t='s'><v>0</v></c></row>")) == "damaged_archive");
    CHECK(refusal(xlsx("<row r='1'><c r='A1' t='s'><v>-1</v></c></row>")) == "damaged_archive");
    CHECK(refusal(xlsx("<row r='2000000000'/>")) == "damaged_archive");
    CHECK(refusal(xlsx("<row r='1'>" + cell("ZZZZZZ1", "a") + "</row>")) == "damaged_archive");
    CHECK(refusal(xlsx("<row r='2'/><row r='1'/>")) == "damaged_archive");
    CHECK(refusal(xlsx("<row r='200000'>" + cell("A200000", "a") + "</row>")) == "too_many_rows");
    CHECK(refusal(xlsx("<row r='1'>" + cell("AMK1", "a") + "</row>")) == "too_large");
    std::string deep;
    for (int i = 0; i < 300; ++i) deep += "<a>";
    CHECK(refusal(xlsx(deep)) == "damaged_archive");
}

TEST_CASE("entities are refused before they are used") {
    auto parts = workbook("");
    parts.back().second = "<!DOCTYPE worksheet [<!ENTITY a 'aaaa'><!ENTITY b '&a;&a;'>]>"
                          "<worksheet><sheetData><row><c t='str'><v>&b;</v></c></row></sheetData>"
                          "</worksheet>";
    CHECK(refusal(zipped(parts)) == "damaged_archive");
    parts.back().second = "<!DOCTYPE worksheet SYSTEM 'file:///etc/passwd'><worksheet/>";
    CHECK(refusal(zipped(parts)) == "damaged_archive");
}

TEST_CASE("what unpacks to too much is refused while it unpacks") {
    CHECK(refusal(xlsx(std::string(60'000'000, ' '))) == "too_large");
    std::string row = "<row>";
    for (int i = 0; i < 1'000; ++i) row += "<c><v>1</v></c>";
    row += "</row>";
    std::string rows;
    for (int i = 0; i < 2'100; ++i) rows += row;
    CHECK(refusal(xlsx(rows)) == "too_large");
    const std::string cells = "<t:table-row t:number-rows-repeated='90000'><t:table-cell "
                              "t:number-columns-repeated='1000'><x:p>a</x:p></t:table-cell>"
                              "</t:table-row>";
    CHECK(refusal(ods("<t:table t:name='A'>" + cells + "</t:table>")) == "too_large");
}

TEST_CASE("text that is no list of text is refused") {
    CHECK(refusal(std::string("a,b\0c", 5)) == "not_text");
    CHECK(refusal("a,\"b\nc,d\n") == "not_text");
    CHECK(refusal("\xEF\xBB\xBF\xFF,b\n") == "not_text");
    std::string rows;
    for (int i = 0; i < 100'001; ++i) rows += "a\n";
    CHECK(refusal(rows) == "too_many_rows");
    CHECK(refusal(std::string(2'000, ',')) == "too_large");
    CHECK(refusal(std::string(50'000'001, 'a')) == "too_large");
}

TEST_CASE("a cell of more than 32,767 characters is flawed, not the file") {
    const auto sheet = read("a,b\n" + std::string(32'768, 'x') + ",c\n").sheets.at(0);
    REQUIRE(sheet.rows[1].flaws.size() == 1);
    CHECK(sheet.rows[1].flaws[0].flaw == CellFlaw::too_long);
    CHECK(sheet.rows[1].cells == Cells{"", "c"});
}

TEST_CASE("reading stops when it is asked to") {
    std::stop_source source;
    source.request_stop();
    ListHints hints;
    hints.stop = source.get_token();
    CHECK_THROWS_AS(read_list_file("list", "a,b\n", hints), Stopped);
    CHECK_THROWS_AS(read_list_file("list", xlsx(""), hints), Stopped);
}

// Bytes as the code pages of Windows keep these words (mappings published with Unicode).
TEST_CASE("the code page is the one whose words are known") {
    ListHints hints;
    hints.words = {"Wejście cyfrowe", "Дискретный вход", "Désignation", "Füllstand"};
    const auto encoding = [&](const std::string& bytes) {
        return read_list_file("list", bytes, hints).reading.encoding;
    };
    CHECK(encoding("Nr;Wej\x9C"
                   "cie cyfrowe\n") == "windows-1250");
    CHECK(encoding("N;\xC4\xE8\xF1\xEA\xF0\xE5\xF2\xED\xFB\xE9 \xE2\xF5\xEE\xE4\n") ==
          "windows-1251");
    CHECK(encoding("Nr;D\xE9signation\n") == "windows-1252");
    CHECK(encoding("Nr;F\x81llstand\n") == "ibm850");
    CHECK(encoding("Nr;\xE9\xE8\n") == "windows-1252");
    hints.encoding = "windows-1251";
    CHECK(encoding("Nr;\xE9\n") == "windows-1251");
    hints.encoding = "morse";
    CHECK_THROWS_AS(encoding("Nr;\xE9\n"), BadInput);
}
