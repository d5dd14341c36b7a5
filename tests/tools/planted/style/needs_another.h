#pragma once

inline std::string planted() { return "a header that forgot <string>"; }
