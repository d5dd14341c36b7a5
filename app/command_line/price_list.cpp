#include <algorithm>

#include "app/command_line/commands.h"
#include "app/command_line/price_list_report.h"
#include "app/stored_data.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/price_map.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// The files as they came.
struct Given {
    ReadSheet read;
    PriceMap map;
};

Given read_files(const PriceListArguments& arguments) {
    Given given{read_delimited(arguments.list, read_file(arguments.list)), {}};
    if (!arguments.map.empty()) given.map = read_price_map(arguments.map, read_file(arguments.map));
    return given;
}

/// A supplier's list compared with the content as it stands.
PriceListReport compare(const PriceListArguments& arguments, const Given& given,
                        const LibraryContent& content) {
    const Sheet& sheet = given.read.sheet;
    const ListRules rules = read_list_rules(content.rules);
    PriceListReport report;
    report.file = arguments.list;
    report.encoding = given.read.reading.encoding;
    report.list = read_price_list(arguments.list, sheet.rows, sheet.row_numbers, given.map, rules);
    report.comparison = compare_list(report.list, content.parts, rules);
    report.currency = rules.currency;
    report.digits = currency_digits(content.rules, rules.currency);
    report.demo_data = std::any_of(content.parts.begin(), content.parts.end(),
                                   [](const Part& part) { return part.demo; });
    report.choice = {arguments.accept_suspicious, arguments.discontinue_gone};
    return report;
}

} // namespace

int run_price_list(const PriceListArguments& arguments, const CommonArguments& common) {
    const Given given = read_files(arguments);
    PriceListReport report;
    const auto put = [&](const LibraryContent& content) {
        report = compare(arguments, given, content);
        auto parts = parts_to_put(report.comparison, report.choice);
        report.to_put = parts.size();
        return parts;
    };
    if (arguments.preview) {
        put(load_content(common.library));
    } else {
        const auto summary = open_library(common.library)
                                 .change_parts(put, {user_name(), "price list " + arguments.list});
        report.applied = summary;
    }
    if (!arguments.write_map.empty())
        write_file(arguments.write_map, price_map_text(report.list.map));
    print_price_list(report, common.json);
    return done;
}

} // namespace backplate
