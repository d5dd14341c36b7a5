backplate_tests(request_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/check_request.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/fill_defaults.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/node_values.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/starter_book.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/to_bid_request.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/word_pattern.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/words.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/wrong_requests.tests.cpp
  LIBRARIES catalog_exchange)
