#include <exception>
#include <iostream>
#include <string>

#include "reports/workbook/workbook.h"
#include "tests/reports/workbook/rich_estimate.h"

/// Writes the made-up estimates into FOLDER for checks with other programs: rich.xlsx,
/// rich_inch.xlsx, unbuildable.xlsx, and wrong.xlsx, whose margin is a cent too high.
int main(int count, char** arguments) {
    if (count != 2) {
        std::cerr << "usage: sample_workbook FOLDER\n";
        return 2;
    }
    try {
        const std::string folder = arguments[1];
        const backplate::RuleBook rules = backplate::rich_rules();
        backplate::Estimate estimate = backplate::rich_estimate();
        backplate::write_workbook(estimate, rules, folder + "/rich.xlsx");
        estimate.price->margin += backplate::Money::of_steps(100);
        backplate::write_workbook(estimate, rules, folder + "/wrong.xlsx");
        estimate = backplate::rich_estimate();
        estimate.request.inch = estimate.request.north_america = true;
        backplate::write_workbook(estimate, rules, folder + "/rich_inch.xlsx");
        backplate::write_workbook(backplate::unbuildable_estimate(), rules,
                                  folder + "/unbuildable.xlsx");
    } catch (const std::exception& fault) {
        std::cerr << fault.what() << '\n';
        return 3;
    }
}
