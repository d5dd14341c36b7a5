# Not a test of its own: check_demo_workbook.sh asks it.
add_executable(frozen_price app/frozen_price.cpp)
target_link_libraries(frozen_price PRIVATE app_session fmt::fmt)
set_target_properties(frozen_price PROPERTIES EXCLUDE_FROM_ALL ${BACKPLATE_SANITIZE})
