# Each part adds its own: OPTIONAL, so that one can be built before another stands.
foreach(part values book request heat takeoff price_list cost_risk mix panel cost job records)
  include(${CMAKE_CURRENT_SOURCE_DIR}/pricing/${part}.cmake OPTIONAL)
endforeach()
