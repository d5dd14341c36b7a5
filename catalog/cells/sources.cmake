target_sources(catalog_exchange PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/csv.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/encoding.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/files.cpp)
