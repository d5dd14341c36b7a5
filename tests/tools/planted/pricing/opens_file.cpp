// file
#include <cstdio>

void* planted(const char* path) { return std::fopen(path, "r"); }
