target_sources(pricing PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/box_facts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/candidate.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/choose_panel.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/cooling.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/devices.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/housing.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/incoming.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/layout.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/load.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/marks.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/mix_problem.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/refusals.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/room_rule.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/supply.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/panel/wiring.cpp)
