# Not a test of its own: check_arranged_mix.py asks it.
add_executable(arranged_mix mix_cases/arranged_mix.cpp)
target_link_libraries(arranged_mix PRIVATE app_session)
