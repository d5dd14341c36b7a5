backplate_tests(mix_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/accepts.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/arrange.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/assign_channels.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/demand.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/exhaustive_mix.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/front.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/kept_modules.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/least_cost.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/mix_guide.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/mix/pack_stations.tests.cpp
  LIBRARIES pricing catalog_exchange)
