target_sources(pricing_takeoff PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/classify.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/heading_match.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/headings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/ledger.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/lexicon.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/list_answers.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/plain_text.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/row_facts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/table_matrix.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/table_points.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/table_reader.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/tags.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/take_off.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/takeoff_counts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/takeoff/tally.cpp)
