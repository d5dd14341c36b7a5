backplate_tests(record_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/catalog/exchange/base64.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/catalog/exchange/job_file.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/cost/compare.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/inherited.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/saved_job.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/similar.tests.cpp
  LIBRARIES catalog_exchange)
