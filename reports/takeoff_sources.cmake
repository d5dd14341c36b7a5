target_sources(reports PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff_json.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff_words.cpp)
target_link_libraries(reports PUBLIC pricing_takeoff)
