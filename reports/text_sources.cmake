target_sources(reports PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/alternatives_json.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/box_writer.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/estimate_json.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/file_beside.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/json_writer.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix_json.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/price_steps_text.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/wording.cpp)
include(${CMAKE_CURRENT_SOURCE_DIR}/number_sources.cmake OPTIONAL)
include(${CMAKE_CURRENT_SOURCE_DIR}/takeoff_sources.cmake OPTIONAL)
