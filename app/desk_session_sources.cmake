target_sources(app_session PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/drafts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/engine_thread.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/job_saving.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/priced_revision.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/recent_files.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/request_input.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/saved_job.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/session.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/shop_answers.cpp)
