target_sources(catalog_exchange PRIVATE ${CMAKE_CURRENT_SOURCE_DIR}/exchange/rules_csv.cpp)
