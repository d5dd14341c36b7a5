target_sources(pricing PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/accepts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/arrange.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/bare_columns.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/bare_rows.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/component_paths.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/cover_cut.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/cover_lp.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/demand.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/distribute.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/front.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/hall_rows.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/least_cost.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/mix_guide.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/pack_stations.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/tradeoffs.cpp)
