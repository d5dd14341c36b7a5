target_sources(backplate PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/job_arguments.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_confirm.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_copy.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_file.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_list.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_outcome.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_report.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_reprice.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_save.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_send.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_show.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/jobs_similar.cpp)

