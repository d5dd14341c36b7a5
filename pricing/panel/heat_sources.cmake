target_sources(pricing_heat PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/heat_surface.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/heat_two_film.cpp)
