backplate_tests(book_tests
  SOURCES
    pricing/book/rule_book.tests.cpp
    pricing/book/rule_tables.tests.cpp
  LIBRARIES pricing_core)
