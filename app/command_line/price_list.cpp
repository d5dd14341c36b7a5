#include <algorithm>

#include "app/command_line/commands.h"
#include "app/command_line/price_list_report.h"
#include "app/stored_data.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/price_map.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// A supplier's list compared with the content as it stands.
PriceListReport compare(const PriceListArguments& arguments, const LibraryContent& content) {
    const ReadSheet read = read_delimited(arguments.list, read_file(arguments.list));
    const PriceMap map = arguments.map.empty()
                             ? PriceMap{}
                             : read_price_map(arguments.map, read_file(arguments.map));
    const ListRules rules = read_list_rules(content.rules);
    PriceListReport report;
    report.file = arguments.list;
    report.encoding = read.reading.encoding;
    report.list =
        read_price_list(arguments.list, read.sheet.rows, read.sheet.row_numbers, map, rules);
    report.comparison = compare_list(report.list, content.parts, rules);
    report.currency = rules.currency;
    report.digits = currency_digits(content.rules, rules.currency);
    report.demo_data = std::any_of(content.parts.begin(), content.parts.end(),
                                   [](const Part& part) { return part.demo; });
    report.accepted = arguments.accept_suspicious;
    return report;
}

} // namespace

int run_price_list(const PriceListArguments& arguments, const CommonArguments& common) {
    PriceListReport report;
    const auto put = [&](const LibraryContent& content) {
        report = compare(arguments, content);
        auto parts = parts_to_put(report.comparison, arguments.accept_suspicious);
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
