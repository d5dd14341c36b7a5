backplate_tests(test_reports_drawing
  SOURCES
    ${CMAKE_CURRENT_LIST_DIR}/drawing/scene.tests.cpp
    ${CMAKE_CURRENT_LIST_DIR}/drawing/sheets.tests.cpp
  LIBRARIES pricing catalog_exchange reports PkgConfig::CAIRO)
