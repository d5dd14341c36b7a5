backplate_tests(price_list_tests
  SOURCES
    pricing/price_list/compare_list.tests.cpp
    pricing/price_list/list_text.tests.cpp
    pricing/price_list/read_list.tests.cpp
  LIBRARIES pricing_price_list)
