backplate_tests(panel_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/choose_panel.tests.cpp
  LIBRARIES pricing catalog_exchange)
