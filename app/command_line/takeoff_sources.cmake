target_sources(backplate PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/takeoff.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/takeoff_changes.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/takeoff_summary.cpp)
