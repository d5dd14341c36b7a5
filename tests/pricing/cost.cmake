backplate_tests(cost_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/cost/charges.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/cost/labour.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/cost/learning.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/cost/roll_up.tests.cpp
  LIBRARIES pricing catalog_exchange)
