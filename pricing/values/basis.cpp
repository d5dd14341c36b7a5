#include "pricing/values/basis.h"

#include <stdexcept>

namespace backplate {
namespace {

BasisInput input(BasisInput::From from, std::string path, std::string value, std::string unit) {
    return {from, std::move(path), std::move(value), std::move(unit)};
}

} // namespace

BasisInput from_figure(std::string path, std::string value, std::string unit) {
    return input(BasisInput::From::figure, std::move(path), std::move(value), std::move(unit));
}

BasisInput from_request(std::string path, std::string value, std::string unit) {
    return input(BasisInput::From::request, std::move(path), std::move(value), std::move(unit));
}

BasisInput from_rule(std::string path, std::string value, std::string unit) {
    return input(BasisInput::From::rule, std::move(path), std::move(value), std::move(unit));
}

BasisInput from_part(std::string path, std::string value, std::string unit) {
    return input(BasisInput::From::part, std::move(path), std::move(value), std::move(unit));
}

std::string input_letter(std::size_t index) {
    if (index >= 52) throw std::out_of_range("a formula has at most 52 inputs");
    const char letter =
        index < 26 ? static_cast<char>('a' + index) : static_cast<char>('A' + (index - 26));
    return std::string(1, letter);
}

} // namespace backplate
