add_executable(estimate_bench ${CMAKE_CURRENT_SOURCE_DIR}/bench/estimate_bench.cpp)
target_link_libraries(estimate_bench PRIVATE pricing catalog_exchange)
target_compile_definitions(estimate_bench PRIVATE BACKPLATE_SOURCE_TREE="${PROJECT_SOURCE_DIR}")
