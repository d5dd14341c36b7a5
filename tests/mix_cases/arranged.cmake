# Not a test of its own: check_arranged_mix.py asks it.
add_executable(arranged_mix mix_cases/arranged_mix.cpp)
target_link_libraries(arranged_mix PRIVATE app_session)

# General solvers beside the search, in one process; they are never part of what is shipped.
find_library(GLPK_LIBRARY glpk REQUIRED)
pkg_check_modules(CBC REQUIRED IMPORTED_TARGET cbc)
add_executable(mix_bench bench/mix_bench.cpp)
target_link_libraries(mix_bench PRIVATE pricing catalog_exchange ${GLPK_LIBRARY} PkgConfig::CBC)
