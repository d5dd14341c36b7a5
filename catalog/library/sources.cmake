# The schema's steps become texts in the program.
set(schema_folder ${CMAKE_CURRENT_SOURCE_DIR}/library/schema)
foreach(step 001 002 003)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${schema_folder}/${step}.sql)
  file(READ ${schema_folder}/${step}.sql BACKPLATE_SCHEMA_${step})
endforeach()
configure_file(${schema_folder}/scripts.cpp.in ${CMAKE_CURRENT_BINARY_DIR}/schema_scripts.cpp @ONLY)

target_sources(catalog_library PRIVATE
  ${CMAKE_CURRENT_BINARY_DIR}/schema_scripts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/backup_library.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/cell_text.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/change_sets.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/check_library.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/job_changes.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/jobs.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/library.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/library_file.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/list_memory.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/part_rows.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/rule_rows.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/used_rows.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/library/versions.cpp)
target_link_libraries(catalog_library PRIVATE nlohmann_json::nlohmann_json)
