# Records of jobs that are kept: the library and its files read them without the sizing.
target_sources(pricing_core PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/cost/compare.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/estimate_record.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/inherited.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/saved_job.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job/similar.cpp)
