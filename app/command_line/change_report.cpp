#include "app/command_line/change_report.h"
#include "app/command_line/counted.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/commands.h"

namespace backplate {
namespace {

void print_json(const nlohmann::ordered_json& object) { fmt::print("{}\n", object.dump(2)); }

} // namespace

void print_change(const ChangeSummary& summary, const char* rows, bool json) {
    if (json) {
        nlohmann::ordered_json object{{"new", summary.added},
                                      {"changed", summary.changed},
                                      {"ended", summary.ended},
                                      {"unchanged", summary.unchanged},
                                      {"change_set", nullptr}};
        if (summary.change_set) object["change_set"] = *summary.change_set;
        return print_json(object);
    }
    fmt::print("{} new, {} changed, {} ended, {} unchanged {}; {}\n", summary.added,
               summary.changed, summary.ended, summary.unchanged, rows,
               summary.change_set ? fmt::format("change set {}", *summary.change_set)
                                  : "nothing to change");
}

int print_check(const CheckReport& report, bool json) {
    const bool sound = report.faults.empty();
    if (json) {
        print_json({{"sound", sound}, {"faults", report.faults}, {"remarks", report.remarks}});
    } else {
        for (const auto& fault : report.faults) fmt::print("{}\n", fault);
        for (const auto& remark : report.remarks) fmt::print("remark: {}\n", remark);
        fmt::print("{}\n", sound ? report.sound : counted(report.faults.size(), "fault"));
    }
    return sound ? done : not_as_asked;
}

void print_export(std::size_t count, const char* rows, const std::string& directory, bool json) {
    if (json)
        print_json({{rows, count}, {"directory", directory}});
    else
        fmt::print("{} {} written to {}\n", count, rows, directory);
}

} // namespace backplate
