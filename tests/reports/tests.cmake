foreach(part text workbook drawing)
  include(${CMAKE_CURRENT_SOURCE_DIR}/reports/${part}.cmake OPTIONAL)
endforeach()
