// clock
#include <chrono>

long planted() { return std::chrono::system_clock::now().time_since_epoch().count(); }
