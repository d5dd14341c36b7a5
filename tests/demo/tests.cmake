backplate_tests(demo_tests
  SOURCES
    demo/demo_book.tests.cpp
  LIBRARIES catalog_exchange)
