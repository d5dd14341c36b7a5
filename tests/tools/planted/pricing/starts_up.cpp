// start-up
#include <string>

extern const std::string planted;
const std::string planted = std::string(40, 'x');
