target_sources(catalog_exchange PRIVATE ${CMAKE_CURRENT_SOURCE_DIR}/exchange/request_json.cpp)
