# Not a test of its own: check_rule_sweep.py asks it.
add_executable(rule_sweep rule_sweep/rule_sweep.cpp rule_sweep/questions.cpp rule_sweep/changed_cells.cpp)
target_link_libraries(rule_sweep PRIVATE app_session)
