target_sources(pricing PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/job/box_result.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/caution_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/choice_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/count_basis.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/demand_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/offer_facts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/offer_texts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/offer_values.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/panel_basis.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/panel_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/point_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/price_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/ratios.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/request_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/scope_findings.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/site_findings.cpp)
