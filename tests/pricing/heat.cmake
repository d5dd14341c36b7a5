backplate_tests(heat_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/heat_monotone.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/heat_surface.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/heat_two_film.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/heat_two_film_grid.tests.cpp
  LIBRARIES pricing_heat)
