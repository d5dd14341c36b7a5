target_sources(backplate PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/alternatives.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/arguments.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/estimate.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/example_request.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/main.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/mix.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/price_steps_report.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/quote.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/summary.cpp)
include(${CMAKE_CURRENT_SOURCE_DIR}/command_line/library_sources.cmake OPTIONAL)
include(${CMAKE_CURRENT_SOURCE_DIR}/command_line/takeoff_sources.cmake OPTIONAL)
include(${CMAKE_CURRENT_SOURCE_DIR}/command_line/job_sources.cmake)
