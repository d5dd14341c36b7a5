target_sources(catalog_exchange PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/mix_instance.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/part_template.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/price_csv.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/price_map.cpp)
