pkg_check_modules(LIBZIP REQUIRED IMPORTED_TARGET libzip)
find_package(nlohmann_json 3.11 CONFIG REQUIRED)
backplate_tests(takeoff_tests
  SOURCES
    app/list_points.tests.cpp
    ${PROJECT_SOURCE_DIR}/app/list_points.cpp
    pricing/takeoff/answers.tests.cpp
    pricing/takeoff/classify.tests.cpp
    pricing/takeoff/compare_lists.tests.cpp
    pricing/takeoff/example_lists.tests.cpp
    pricing/takeoff/headings.tests.cpp
    pricing/takeoff/list_cases.cpp
    pricing/takeoff/plain_text.tests.cpp
    pricing/takeoff/random_lists.tests.cpp
    pricing/takeoff/tags.tests.cpp
    pricing/takeoff/take_off.tests.cpp
  LIBRARIES pricing_takeoff catalog_exchange reports nlohmann_json::nlohmann_json PkgConfig::LIBZIP)
