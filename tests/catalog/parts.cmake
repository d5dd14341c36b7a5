backplate_tests(parts_tests
  SOURCES
    catalog/exchange/part_template.tests.cpp
    catalog/exchange/price_csv.tests.cpp
    catalog/exchange/price_map.tests.cpp
    pricing/book/check_book.tests.cpp
    pricing/book/part.tests.cpp
    pricing/book/part_fields.tests.cpp
    pricing/book/price_book.tests.cpp
  LIBRARIES catalog_exchange)
