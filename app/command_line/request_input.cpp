#include "app/command_line/request_input.h"

#include <chrono>
#include <iostream>
#include <iterator>

#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

namespace backplate {

Date today() {
    const auto now = std::chrono::system_clock::now();
    return {
        static_cast<int>(std::chrono::floor<std::chrono::days>(now).time_since_epoch().count())};
}

std::string read_text(const std::string& name) {
    if (name != "-") return read_file(name);
    return {std::istreambuf_iterator<char>(std::cin), std::istreambuf_iterator<char>()};
}

BidRequest read_request(const std::string& name, const Inputs& inputs) {
    const std::string shown = name == "-" ? "standard input" : name;
    const ParsedJson parsed = parse_json(shown, read_text(name));
    CheckedRequest checked = check_request(parsed.root, *inputs.rules, today());
    if (checked.request) return std::move(*checked.request);
    std::string message = shown + ":";
    for (const RequestFault& fault : checked.faults)
        message +=
            "\n  " + (fault.where.empty() ? std::string("/") : fault.where) + ": " + fault.text;
    throw BadInput(message);
}

} // namespace backplate
