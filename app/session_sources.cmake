include(${CMAKE_CURRENT_SOURCE_DIR}/inputs_sources.cmake OPTIONAL)
include(${CMAKE_CURRENT_SOURCE_DIR}/desk_session_sources.cmake OPTIONAL)
target_sources(app_session PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/documents.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/list_points.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/list_take_off.cpp)
