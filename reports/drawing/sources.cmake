target_sources(reports PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/channel_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/device_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/distribution_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/door_scene.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/drawing_file.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/labels.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/paint.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/palette.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/panel_scene.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/panel_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/scene.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/sheets.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/drawing/text_size.cpp)
