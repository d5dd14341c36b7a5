backplate_tests(test_reports_workbook
  SOURCES
    ${CMAKE_CURRENT_LIST_DIR}/number_format.tests.cpp
    ${CMAKE_CURRENT_LIST_DIR}/workbook/cell_text.tests.cpp
    ${CMAKE_CURRENT_LIST_DIR}/workbook/rich_estimate.cpp
    ${CMAKE_CURRENT_LIST_DIR}/workbook/text_width.tests.cpp
    ${CMAKE_CURRENT_LIST_DIR}/workbook/workbook.tests.cpp
  LIBRARIES reports)

# The same estimates as files, judged with another spreadsheet program.
add_executable(sample_workbook ${CMAKE_CURRENT_LIST_DIR}/workbook/sample_workbook.cpp
                               ${CMAKE_CURRENT_LIST_DIR}/workbook/rich_estimate.cpp)
target_link_libraries(sample_workbook PRIVATE reports)
set(check_workbook /usr/bin/python3 ${PROJECT_SOURCE_DIR}/tests/tools/check_workbook.py)
add_test(NAME sample_workbook COMMAND sample_workbook ${CMAKE_CURRENT_BINARY_DIR})
add_test(NAME check_workbook_rich
         COMMAND ${check_workbook} ${CMAKE_CURRENT_BINARY_DIR}/rich.xlsx --perturb
                 --text =1+1 --text "=HYPERLINK(\"x\")" --text "A<B>&\"C\""
                 --text "@SUM(1), +1, -1 are texts" --text "_x0041_ stays as written"
                 --text "Schütz für Öfen, ß 100 %, <b>fett</b> & mehr")
add_test(NAME check_workbook_inch
         COMMAND ${check_workbook} ${CMAKE_CURRENT_BINARY_DIR}/rich_inch.xlsx
                 --text "1.5 mm² (at least 14 AWG)")
add_test(NAME check_workbook_unbuildable
         COMMAND ${check_workbook} ${CMAKE_CURRENT_BINARY_DIR}/unbuildable.xlsx
                 --text "CANNOT BE BUILT AS ASKED")
# The check sees a single cent, and says where.
add_test(NAME check_workbook_wrong
         COMMAND ${check_workbook} ${CMAKE_CURRENT_BINARY_DIR}/wrong.xlsx)
set_tests_properties(check_workbook_wrong PROPERTIES
  PASS_REGULAR_EXPRESSION "ROUND.cost.margin_percent.*stored .*, recalculated")
set_tests_properties(sample_workbook PROPERTIES FIXTURES_SETUP sample_workbook)
set_tests_properties(check_workbook_rich check_workbook_inch check_workbook_unbuildable
  check_workbook_wrong PROPERTIES
  FIXTURES_REQUIRED sample_workbook LABELS workbook TIMEOUT 300)
