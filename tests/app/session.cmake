backplate_tests(session_tests
  SOURCES app/answers.tests.cpp app/documents.tests.cpp app/drafts.tests.cpp app/engine_thread.tests.cpp app/session.tests.cpp app/shop_answers.tests.cpp
  LIBRARIES app_session)
if(BACKPLATE_DESK)
  include(${PROJECT_SOURCE_DIR}/tests/desk/desk.cmake)
endif()
