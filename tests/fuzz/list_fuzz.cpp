// Any bytes as a list: read, taken off with the starter rules, written as JSON. The first byte says
// what the rest is: 0 a file, 1 parts of an XLSX workbook (sheet, shared texts, styles, parted by
// the byte 0x1E), 2 the content part of an ODS workbook.
#include <cstdint>
#include <cstdlib>

#include "catalog/cells/list_file.h"
#include "tests/catalog/cells/zipped.h"
#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;

namespace {

std::string file_of(const std::string& input) {
    const std::string rest = input.substr(1);
    if (input[0] == '2') return tests::zipped(tests::ods_parts(rest));
    if (input[0] != '1') return rest;
    const auto first = rest.find('\x1E');
    const auto second = first == std::string::npos ? first : rest.find('\x1E', first + 1);
    const auto between = [&](std::size_t from, std::size_t to) {
        return from == std::string::npos ? std::string() : rest.substr(from + 1, to - from - 1);
    };
    return tests::zipped(tests::workbook_parts(rest.substr(0, first), between(first, second),
                                               between(second, std::string::npos)));
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const std::string input(reinterpret_cast<const char*>(data), size);
    try {
        const ListFile file = read_list_file("list", file_of(input), {});
        const Takeoff takeoff = take_off(file, tests::starter_rules(), {});
        // Every row has its outcome, or take_off has thrown; the counts are those of the points.
        if (takeoff.counts_if_accepted().size() < takeoff.counts().size()) std::abort();
    } catch (const BadInput&) {
    }
    return 0;
}
