foreach(part text workbook)
  include(${CMAKE_CURRENT_SOURCE_DIR}/reports/${part}.cmake OPTIONAL)
endforeach()
