foreach(part cells parts rules request library)
  include(${CMAKE_CURRENT_SOURCE_DIR}/catalog/${part}.cmake OPTIONAL)
endforeach()
