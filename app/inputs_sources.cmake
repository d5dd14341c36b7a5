target_sources(app_session PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/inputs.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/stored_data.cpp)
