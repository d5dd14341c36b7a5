backplate_tests(desk_text_tests
  SOURCES desk/entry_and_text.tests.cpp
          desk/entry_rows.tests.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/answer_text.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/entry_check.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/entry_rows.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/number_entry.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/words.cpp
  LIBRARIES app_session)

# The window as a user meets it: keys in, shown state out. Needs Xvfb, dbus-run-session, xdotool.
find_program(BACKPLATE_PYTHON python3 REQUIRED)
add_test(NAME desk_window
  COMMAND ${BACKPLATE_PYTHON} ${PROJECT_SOURCE_DIR}/tests/desk/run_desk_test.py
          --program $<TARGET_FILE:backplate-desk>
          --request ${PROJECT_SOURCE_DIR}/tests/desk/small_request.json
          --work ${CMAKE_BINARY_DIR}/desk_test)
set_tests_properties(desk_window PROPERTIES LABELS desk RUN_SERIAL TRUE TIMEOUT 180)
