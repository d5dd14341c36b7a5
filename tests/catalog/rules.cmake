backplate_tests(rules_tests
  SOURCES
    catalog/exchange/offer_rows.tests.cpp
    catalog/exchange/rules_csv.tests.cpp
    catalog/exchange/starter_rules.tests.cpp
  LIBRARIES catalog_exchange)
