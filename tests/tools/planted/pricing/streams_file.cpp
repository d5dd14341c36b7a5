// file
#include <fstream>

bool planted(const char* path) { return std::ifstream(path).good(); }
