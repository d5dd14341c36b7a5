foreach(part session command_line)
  include(${CMAKE_CURRENT_SOURCE_DIR}/app/${part}.cmake OPTIONAL)
endforeach()
