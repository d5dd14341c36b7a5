pkg_check_modules(LIBZIP REQUIRED IMPORTED_TARGET libzip)
backplate_tests(cells_tests
  SOURCES
    catalog/cells/csv.tests.cpp
    catalog/cells/files.tests.cpp
    catalog/cells/list_file.tests.cpp
  LIBRARIES catalog_exchange PkgConfig::LIBZIP)
