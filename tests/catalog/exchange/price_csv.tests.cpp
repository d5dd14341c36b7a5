#include "catalog/exchange/price_csv.h"

#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "catalog/cells/table.h"
#include "pricing/book/part_fields.h"
#include "pricing/values/faults.h"

using namespace backplate;
namespace fs = std::filesystem;

namespace {

const std::string tree = BACKPLATE_SOURCE_TREE;

/// A folder of its own, gone at the end.
struct Folder {
    fs::path path = fs::temp_directory_path() / ("backplate-parts-" + std::to_string(::getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string file(const std::string& name) const { return (path / name).string(); }
};

/// The message for a file of these bytes, without the folder.
std::string refusal(const std::string& bytes) {
    const Folder folder;
    const std::string path = folder.file("p.csv");
    write_file(path, bytes);
    try {
        read_parts_file(path);
    } catch (const BadInput& fault) {
        std::string text = fault.what();
        const auto at = text.find(path);
        return at == 0 ? text.substr(folder.path.string().size() + 1) : "no path: " + text;
    }
    return "";
}

std::vector<Part> sorted(std::vector<Part> parts) {
    std::sort(parts.begin(), parts.end(),
              [](const Part& a, const Part& b) { return a.key < b.key; });
    return parts;
}

void check_round_trip(const std::vector<Part>& parts) {
    const Folder folder;
    write_parts_dir(parts, folder.path.string());
    const auto back = sorted(read_parts_dir(folder.path.string()));
    const auto expected = sorted(parts);
    REQUIRE(back.size() == expected.size());
    for (std::size_t i = 0; i < back.size(); ++i) {
        CAPTURE(expected[i].key);
        CHECK(back[i] == expected[i]);
    }
}

/// A cell that the field takes.
std::string random_cell(const PartField& field, std::mt19937& random) {
    const auto below = [&](std::size_t n) { return static_cast<int>(random() % n); };
    if (field.key == "part") return "P-" + std::to_string(random());
    if (field.key == "groups")
        return "DI*" + std::to_string(1 + below(32)) + "@0.5/" + std::to_string(below(9)) +
               ";TC*2+isolated;DI|DO*8+one_signal+if(24 V only)";
    if (field.key == "accessory") return "A-1*" + std::to_string(1 + below(5)) + ";B \xC3\xA9";
    if (field.key == "combined_ka") return "B-1@" + std::to_string(1 + below(65)) + ";C 2@12.5";
    if (field.key == "discount_percent") return std::to_string(below(101)) + "/2.5";
    if (field.key == "tight_factor") return "0." + std::to_string(1 + below(9));
    if (field.key == "list") return std::to_string(below(10000)) + ".1205";
    if (field.key == "protection") return "IP6" + std::to_string(below(10));
    if (expectation(field) == "yes or no") return below(2) ? "yes" : "no";
    if (!field.words.empty()) return std::string(field.words[random() % field.words.size()]);
    if (field.maximum > 0)
        return std::to_string(static_cast<int>(std::max(1.0, field.minimum)) + below(2));
    if (expectation(field).find("date") != std::string::npos)
        return "2026-1" + std::to_string(below(3)) + "-07";
    return "x, \"y\" \xC3\xBC" + std::to_string(below(10));
}

Part random_part(std::mt19937& random) {
    Part part;
    for (const auto& field : part_fields()) {
        const bool needed = field.key == "part" || field.key == "kind";
        const bool short_form =
            field.key == "signal" || field.key == "channels" || field.key == "channel_a";
        if (short_form || (!needed && random() % 2 == 0)) continue;
        CAPTURE(field.key);
        REQUIRE(field.read(part, random_cell(field, random)));
    }
    fill_part_defaults(part);
    return part;
}

struct WrongCell {
    const char *columns, *cells, *message;
};
const WrongCell wrong_cells[] = {
    {"width_mm", "wide", "column 'width_mm' is 'wide'; expected a number from 0 to 5000 mm"},
    {"width_mm", "-1", "column 'width_mm' is '-1'; expected a number from 0 to 5000 mm"},
    {"own_a", "201", "column 'own_a' is '201'; expected a number from 0 to 200 A"},
    {"list", "1.234,56", "has 4 cells; expected 3 as in the heading"},
    {"list", "12 EUR",
     "column 'list' is '12 EUR'; expected an amount from 0 to 100000000 with at most four "
     "decimals"},
    {"discount_percent", "30+10",
     "column 'discount_percent' is '30+10'; expected discounts from 0 to 100 such as 30/10"},
    {"unit", "pcs", "column 'unit' is 'pcs'; expected one of piece, metre, set, lump_sum"},
    {"price_date", "1.10.2026",
     "column 'price_date' is '1.10.2026'; expected a date such as 2026-11-24"},
    {"valid_until", "2026-02-29",
     "column 'valid_until' is '2026-02-29'; expected a date such as 2026-11-24"},
    {"lead_days", "3.5",
     "column 'lead_days' is '3.5'; expected a whole number from 0 to 3650 days"},
    {"pack", "0", "column 'pack' is '0'; expected a whole number from 1 to 100000 pieces"},
    {"rest_to", "client", "column 'rest_to' is 'client'; expected one of stock, job"},
    {"groups", "DI*x",
     "column 'groups' is 'DI*x'; expected groups such as DI*14@0.004;DO*10@0.5/4+isolated"},
    {"signal,channels", "di,8",
     "column 'signal' is 'di'; expected signals in capitals, such as DI or AI_MA|AI_V"},
    {"signal,channels", "DI,many",
     "column 'channels' is 'many'; expected a whole number from 1 to 1024"},
    {"signal,channels", "DI,",
     "column 'channels' is empty; expected a whole number from 1 to 1024"},
    {"signal,channels", ",8",
     "column 'signal' is empty; expected signals in capitals, such as DI or AI_MA|AI_V"},
    {"signal,groups", "DI,DI*8",
     "column 'groups' is filled beside 'signal', 'channels' or 'channel_a'; expected one of "
     "the two forms"},
    {"accessory", "C*many",
     "column 'accessory' is 'C*many'; expected keys of parts such as CON-16 or CON-16*2;END-1"},
    {"max_c", "hot",
     "column 'max_c' is 'hot'; expected a number from 20 to 120 \xC2\xB0"
     "C"},
    {"protection", "IP 54",
     "column 'protection' is 'IP 54'; expected a mark such as IP54, IP66/IP67 or Type 12"},
    {"type_mark", "12",
     "column 'type_mark' is '12'; expected one of Type 1, Type 2, Type 3, Type 3R, Type 3S, "
     "Type 3X, "
     "Type 3RX, Type 3SX, Type 4, Type 4X, Type 5, Type 6, Type 6P, Type 12, Type 12K, Type "
     "13"},
    {"state", "old", "column 'state' is 'old'; expected one of current, phasing_out, discontinued"},
    {"demo", "true", "column 'demo' is 'true'; expected yes or no"},
};

} // namespace

TEST_CASE("the price book of the worked job is read") {
    const auto parts = read_parts_file(tree + "/tests/worked_jobs/fish_pass/parts.csv");
    REQUIRE(parts.size() == 26);
    const auto find = [&](const char* key) {
        return *std::find_if(parts.begin(), parts.end(),
                             [&](const Part& part) { return part.key == key; });
    };
    const Part controller = find("CTRL-S");
    CHECK(controller.platform == "compact");
    CHECK(controller.places == 12);
    CHECK(controller.bus_ma == 1500);
    CHECK(controller.own_a == 0.3);
    CHECK(controller.net() == Money::whole(390));
    const Part module = find("MOD-DI16");
    REQUIRE(module.groups.size() == 1);
    CHECK(module.groups[0].signals == std::vector<std::string>{"DI"});
    CHECK(module.groups[0].channels == 16);
    CHECK(module.groups[0].channel_a == 0.005);
    CHECK(module.accessories == std::vector<Accessory>{{"CON-16", 1}});
    CHECK(find("TERM-25").pack == 50);
    CHECK(find("TERM-25").rest_to == "stock");
    CHECK(find("NET-8").valid_until == Date::of(2026, 12, 10));
    CHECK(find("PSU-5").efficiency_row == "supply_loss");
    CHECK(find("ENC-0806").ip_mark == "IP54");
    CHECK(find("ENC-0806").mounting == "wall");
    CHECK(find("FAN-C").stage == "circulation_fan");
    CHECK(find("WIRE-075").unit == "metre");
}

TEST_CASE("columns may stand in any order, blank lines and blanks around cells do not count") {
    const Folder folder;
    write_file(folder.file("p.csv"), "kind, part ,list\n\nrail, R-1 ,7.40\n,,\n");
    const auto parts = read_parts_file(folder.file("p.csv"));
    REQUIRE(parts.size() == 1);
    CHECK(parts[0].key == "R-1");
    CHECK(parts[0].list == Money::parse("7.40"));
    CHECK(parts[0].unit == "piece");
}

TEST_CASE("lines that begin with # are remarks where they cannot be data") {
    const Folder folder;
    write_file(folder.file("p.csv"), "# mine, with commas\n# unit: ,,mm\npart,kind,width_mm\n"
                                     "# modules\nA,rail,35\n#,,\n");
    const auto parts = read_parts_file(folder.file("p.csv"));
    REQUIRE(parts.size() == 1);
    CHECK(parts[0].width_mm == 35);
    write_file(folder.file("p.csv"), "description,part,kind\n# 3 rail,A,rail\n");
    CHECK(read_parts_file(folder.file("p.csv")).at(0).description == "# 3 rail");
    CHECK(refusal("# mine\npart;kind\nA;rail\n") ==
          "p.csv: line 2: has no comma between its headings; expected commas");
    CHECK(refusal("# mine\n") == "p.csv: is empty; expected a heading and parts");
}

TEST_CASE("a wrong cell is refused with file, line, part, column and expectation") {
    for (const auto& row : wrong_cells) {
        CAPTURE(row.columns, row.cells);
        CHECK(refusal("part,kind," + std::string(row.columns) + "\nM-1,module," + row.cells +
                      "\n") == "p.csv: line 2: part M-1: " + std::string(row.message));
    }
}

TEST_CASE("a wrong table is refused with file and line") {
    CHECK(refusal("part,kind\nA,gadget\n") ==
          "p.csv: line 2: part A: column 'kind' is 'gadget'; expected one of controller, head, "
          "feed, module, accessory, interface, supply, redundancy, backup, incoming, main_switch, "
          "protection, transformer, device, network, terminal, rail, duct, wire, enclosure, "
          "cooling, heater, door, labels, equipment, plate");
    CHECK(refusal("part,kind\nA,\n") == refusal("part,kind\nA,rail\n\nA,\n").replace(12, 1, "2"));
    CHECK_THAT(refusal("part,kind\n,rail\n"),
               Catch::StartsWith("p.csv: line 2: column 'part' is empty; expected a key"));
    CHECK(refusal("part,kind\nA,rail\nA,duct\n") ==
          "p.csv: line 3: part A stands already at " +
              (fs::temp_directory_path() / ("backplate-parts-" + std::to_string(::getpid())) /
               "p.csv")
                  .string() +
              ": line 2; expected every part once");
    CHECK_THAT(
        refusal("part,kind,colour\nA,rail,red\n"),
        Catch::StartsWith(
            "p.csv: line 1: column 'colour' is no field of a part; expected any of part, kind,"));
    CHECK(refusal("part,kind,widht_mm\nA,rail,1\n") ==
          "p.csv: line 1: column 'widht_mm' is no field of a part; nearest: width_mm");
    CHECK(refusal("part,kind,part\n") ==
          "p.csv: line 1: column 'part' stands twice; expected it once");
    CHECK(refusal("part,list\nA,1\n") == "p.csv: line 1: has no column 'kind'; expected one");
    CHECK(refusal("") == "p.csv: is empty; expected a heading and parts");
    CHECK(refusal("part,kind\nA\n") ==
          "p.csv: line 2: part A: has 1 cells; expected 2 as in the heading");
    CHECK_THAT(refusal("part;kind\nA;rail\n"), Catch::Contains("expected commas"));
}

TEST_CASE("a folder of parts is read in the order of names, a key twice names both places") {
    const Folder folder;
    write_file(folder.file("b.csv"), "part,kind\nB,rail\n");
    write_file(folder.file("a.csv"), "part,kind\nZ,rail\n");
    write_file(folder.file("notes.txt"), "no table");
    const auto parts = read_parts_dir(folder.path.string());
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].key == "Z");
    write_file(folder.file("c.csv"), "part,kind\nY,rail\nZ,duct\n");
    CHECK_THROWS_WITH(read_parts_dir(folder.path.string()),
                      folder.file("c.csv") + ": line 3: part Z stands already at " +
                          folder.file("a.csv") + ": line 2; expected every part once");
    CHECK_THROWS_AS(read_parts_dir(folder.file("none")), BadInput);
    CHECK_THROWS_AS(read_parts_dir(folder.file("a.csv")), BadInput);
    fs::create_directory(folder.file("empty"));
    CHECK_THROWS_AS(read_parts_dir(folder.file("empty")), BadInput);
}

TEST_CASE("the demo book and the book of the worked job read back as written") {
    check_round_trip(read_parts_dir(tree + "/demo/prices"));
    check_round_trip(read_parts_file(tree + "/tests/worked_jobs/fish_pass/parts.csv"));
}

TEST_CASE("any parts read back as written") {
    std::mt19937 random(56);
    std::vector<Part> parts;
    for (int i = 0; i < 400; ++i) parts.push_back(random_part(random));
    check_round_trip(parts);
}

TEST_CASE("an export does not mix with other parts") {
    const Folder folder;
    write_file(folder.file("other.csv"), "part,kind\nA,rail\n");
    Part part;
    part.key = "B";
    part.kind = "rail";
    CHECK_THROWS_WITH(
        write_parts_dir({part}, folder.path.string()),
        folder.file("other.csv") +
            ": would be read together with the exported parts; expected an empty folder");
    fs::remove(folder.file("other.csv"));
    write_parts_dir({part}, folder.path.string());
    write_parts_dir({part}, folder.path.string());
    CHECK(read_file(folder.file("rail.csv")) == "part,kind\nB,rail\n");
}
