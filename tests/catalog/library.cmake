backplate_tests(library_tests
  SOURCES
    catalog/library/backup_library.tests.cpp
    catalog/library/change_sets.tests.cpp
    catalog/library/check_library.tests.cpp
    catalog/library/jobs.tests.cpp
    catalog/library/library.tests.cpp
    catalog/library/list_memory.tests.cpp
    catalog/library/library_file.tests.cpp
    catalog/library/library_kill.tests.cpp
    catalog/library/library_writes.tests.cpp
  LIBRARIES catalog_library SQLiteCpp sqlite3)

backplate_tests(table_command_tests
  SOURCES
    app/command_line/price_list.tests.cpp
    app/command_line/show.tests.cpp
    app/command_line/tables.tests.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/change_report.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/find_parts.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/library.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/library_changes.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/part_template.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/parts.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/price_list.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/price_list_report.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/rules.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/show_parts.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/show_rules.cpp
    ${PROJECT_SOURCE_DIR}/app/command_line/unknown_name.cpp
  LIBRARIES app_session pricing_price_list SQLiteCpp fmt::fmt nlohmann_json::nlohmann_json)
