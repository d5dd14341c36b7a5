include(${CMAKE_CURRENT_SOURCE_DIR}/book/parts_sources.cmake OPTIONAL)
include(${CMAKE_CURRENT_SOURCE_DIR}/book/rules_sources.cmake OPTIONAL)
