// clock
#include <ctime>

long planted() { return std::time(nullptr); }
