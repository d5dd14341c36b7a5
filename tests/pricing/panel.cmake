backplate_tests(panel_tests
  SOURCES
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/assembly_facts.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/choose_boxes.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/beaten_choices.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/choose_panel.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/cold.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/electrical_checks.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/electrical_tables.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/incoming.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/load.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/marks.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/room_rule.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/spare_modules.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/supply.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/wiring.tests.cpp
    ${CMAKE_CURRENT_SOURCE_DIR}/pricing/panel/work_counts.tests.cpp
  LIBRARIES pricing catalog_exchange)
