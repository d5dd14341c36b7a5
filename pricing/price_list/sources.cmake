target_sources(pricing_price_list PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/price_list/compare_list.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/price_list/list_columns.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/price_list/list_rules.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/price_list/list_text.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/price_list/read_list.cpp)
