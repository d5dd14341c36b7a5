target_sources(backplate PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/change_report.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/find_parts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/library.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/part_template.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/parts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/library_changes.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/price_list.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/price_list_report.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/rules.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/show_parts.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/show_rules.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/command_line/unknown_name.cpp)
