target_sources(pricing_core PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/request/assemblies.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/assumption_values.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/assumptions.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/check_request.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/check_values.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/contradictions.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/default_values.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/expectation.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/fill_defaults.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/node_values.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/options.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/request_keys.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/
  ${CMAKE_CURRENT_SOURCE_DIR}/request/to_bid_request.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/word_pattern.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request/words.cpp)
