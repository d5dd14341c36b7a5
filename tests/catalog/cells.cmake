backplate_tests(cells_tests
  SOURCES
    catalog/cells/csv.tests.cpp
    catalog/cells/files.tests.cpp
  LIBRARIES catalog_exchange)
