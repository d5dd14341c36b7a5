// locale
#include <clocale>

void planted() { std::setlocale(LC_ALL, ""); }
