backplate_tests(cost_risk_tests
  SOURCES ${CMAKE_CURRENT_SOURCE_DIR}/pricing/cost/risk.tests.cpp
  LIBRARIES pricing)
