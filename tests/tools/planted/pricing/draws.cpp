// random
#include <random>

unsigned planted() { return std::random_device{}(); }
