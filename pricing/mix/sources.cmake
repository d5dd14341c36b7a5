target_sources(pricing PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/accepts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/arrange.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/demand.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/distribute.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/mix/front.cpp)
