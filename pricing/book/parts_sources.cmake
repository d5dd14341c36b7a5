target_sources(pricing_core PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/book/alike_parts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/check_book.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/part.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/part_fields.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/part_readers.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/book/price_book.cpp)
