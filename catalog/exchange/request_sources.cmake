target_sources(catalog_exchange PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/estimate_file.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/job_file.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/list_answers_json.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/node_reader.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/base64.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/exchange/request_json.cpp)
