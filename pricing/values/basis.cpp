#include "pricing/values/basis.h"

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
    const std::size_t place = index % 52, round = index / 52;
    std::string name(1, static_cast<char>(place < 26 ? 'a' + place : 'A' + (place - 26)));
    if (round > 0) name += std::to_string(round);
    return name;
}

} // namespace backplate
