target_sources(pricing PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/bill.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/charges.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/labour.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/labour_basis.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/learning.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/price_basis.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/risk.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/roll_up.cpp)
