target_sources(reports PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/basis_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/bill_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/cell_text.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/client_sheets.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/enquiry.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/findings_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/hours_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/offer_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/page.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/points_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/price_chain.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/style.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/summary_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/supply_sheet.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/text_width.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/workbook.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/workbook/workbook_file.cpp)
