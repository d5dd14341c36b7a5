target_sources(pricing_core PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/book/exchange.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_figures.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_grouping.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_labour.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_lists.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_price.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_room.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_site.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_site_parts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_small_parts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_book_texts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_reader.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_schema.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/rule_tables.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/conditions.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/drivers.cpp)
