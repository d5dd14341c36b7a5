# Cells of text files and workbooks.
find_package(EXPAT REQUIRED)
pkg_check_modules(LIBZIP REQUIRED IMPORTED_TARGET libzip)
target_sources(catalog_exchange PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/code_pages.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/csv.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/delimited.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/encoding.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/files.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/list_file.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/ods.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/sheet_builder.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/xlsx.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/xlsx_parts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/xlsx_styles.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/xml_stream.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cells/zip_archive.cpp)
target_link_libraries(catalog_exchange PRIVATE pricing_takeoff EXPAT::EXPAT PkgConfig::LIBZIP)
