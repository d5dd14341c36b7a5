backplate_tests(desk_text_tests
  SOURCES desk/entry_and_text.tests.cpp
          desk/entry_rows.tests.cpp
          desk/list_order.tests.cpp
          desk/list_view.tests.cpp
          desk/price_text.tests.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/answer_text.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/desk_state.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/entry_check.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/entry_rows.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/list_order.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/list_view.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/number_entry.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/price_text.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/why_text.cpp
          ${PROJECT_SOURCE_DIR}/app/desk/words.cpp
  LIBRARIES app_session pricing_takeoff)
set_target_properties(desk_text_tests PROPERTIES UNITY_BUILD OFF)

# The window as a user meets it: keys in, shown state out. Needs Xvfb, dbus-run-session, xdotool.
find_program(BACKPLATE_PYTHON python3 REQUIRED)
# A program with checks inside may take longer, and its test as well.
set(desk_patience 1)
set(desk_timeout 180)
if(BACKPLATE_SANITIZE)
  set(desk_patience 6)
  set(desk_timeout 1800)
endif()
function(backplate_desk_test name python script)
  add_test(NAME desk_${name}
    COMMAND ${python} ${PROJECT_SOURCE_DIR}/tests/desk/${script}
            --program $<TARGET_FILE:backplate-desk> --work ${CMAKE_BINARY_DIR}/desk_${name} ${ARGN})
  set_tests_properties(desk_${name} PROPERTIES LABELS desk RUN_SERIAL TRUE TIMEOUT ${desk_timeout}
                       ENVIRONMENT "PYTHONDONTWRITEBYTECODE=1;BACKPLATE_DESK_PATIENCE=${desk_patience}")
endfunction()
set(desk_request ${PROJECT_SOURCE_DIR}/tests/desk/small_request.json)
backplate_desk_test(window ${BACKPLATE_PYTHON} run_desk_test.py --request ${desk_request})
# openpyxl is a package of the system's own python
backplate_desk_test(bid /usr/bin/python3 run_bid_test.py)
backplate_desk_test(list ${BACKPLATE_PYTHON} run_list_test.py --request ${desk_request}
  --list ${PROJECT_SOURCE_DIR}/tests/desk/asking_list.csv)
backplate_desk_test(built ${BACKPLATE_PYTHON} run_built_test.py
  --request ${PROJECT_SOURCE_DIR}/demo/requests/kelp_barn.json)
backplate_desk_test(jobs ${BACKPLATE_PYTHON} run_jobs_test.py --request ${desk_request}
  --backplate $<TARGET_FILE:backplate>)
add_library(dying_writes MODULE desk/dying_writes.cpp)
target_link_libraries(dying_writes PRIVATE ${CMAKE_DL_LIBS})
backplate_desk_test(recovery ${BACKPLATE_PYTHON} run_recovery_test.py --request ${desk_request}
  --backplate $<TARGET_FILE:backplate> --dying-writes $<TARGET_FILE:dying_writes>)
backplate_desk_test(speed ${BACKPLATE_PYTHON} run_speed_test.py)
