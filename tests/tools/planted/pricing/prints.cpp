// printf
#include <string>

std::string planted(double value) { return std::to_string(value); }
