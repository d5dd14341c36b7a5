// iostream
#include <sstream>
#include <string>

std::string planted(double value) {
    std::ostringstream stream;
    stream << value;
    return stream.str();
}
