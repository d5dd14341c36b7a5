backplate_tests(values_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/basis.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/condition.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/currencies.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/date.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/decimal.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/document_units.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/money.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/published_prices.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/values/units.tests.cpp
  LIBRARIES pricing_core)
