backplate_tests(request_json_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/catalog/exchange/request_json.tests.cpp
  LIBRARIES catalog_exchange)
backplate_tests(example_request_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/app/command_line/example_request.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/request/starter_book.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/example_request.cpp
  LIBRARIES catalog_exchange)
