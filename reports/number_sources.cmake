target_sources(reports PRIVATE ${CMAKE_CURRENT_SOURCE_DIR}/number_format.cpp)
