backplate_tests(job_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/choice_findings.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/choices.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/conflict.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/parting.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/drivers.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/enquiry.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/finding_pairs.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/gone_parts.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/offer_texts.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/options.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/power_findings.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/price_job.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/price_steps.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/ratios.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/replacements.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/several_boxes.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/suite.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/supply_groups.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/job/unit_prices.tests.cpp
  LIBRARIES pricing catalog_exchange reports)

# Not a test: prints counts and processor time of whole jobs on the demo price book.
add_executable(estimate_bench ${CMAKE_CURRENT_SOURCE_DIR}/bench/estimate_bench.cpp)
target_link_libraries(estimate_bench PRIVATE pricing catalog_exchange reports)
target_compile_definitions(estimate_bench PRIVATE BACKPLATE_SOURCE_TREE="${PROJECT_SOURCE_DIR}")
set_target_properties(estimate_bench PROPERTIES EXCLUDE_FROM_ALL ${BACKPLATE_SANITIZE})
