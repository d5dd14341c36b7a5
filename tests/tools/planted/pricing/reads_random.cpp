// header
#include <random>
