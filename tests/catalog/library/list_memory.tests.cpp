#include <catch2/catch.hpp>

#include <filesystem>

#include "catalog/cells/table.h"
#include "catalog/library/check_library.h"
#include "catalog/library/list_memory.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;

TEST_CASE("answers are remembered for each client, the last ones stand") {
    const Scratch scratch;
    make_starter(scratch.library());
    CHECK_FALSE(remembered_answers(scratch.library(), "Client"));
    remember_answers(scratch.library(), "Client", "{}", "estimator");
    remember_answers(scratch.library(), "'; DROP TABLE list_answers; --", "{ }", "estimator");
    CHECK(remembered_answers(scratch.library(), "Client") == "{}");
    remember_answers(scratch.library(), "Client", "{  }", "estimator");
    CHECK(remembered_answers(scratch.library(), "Client") == "{  }");
    CHECK(remembered_answers(scratch.library(), "'; DROP TABLE list_answers; --") == "{ }");
    CHECK_FALSE(remembered_answers(scratch.library(), "client"));
    CHECK(check_library(scratch.library()).empty());
}

TEST_CASE("an earlier library remembers nothing and is brought up to date by the first answer") {
    const Scratch scratch;
    std::filesystem::copy(source_tree + "/tests/libraries/schema_002/library.backplate",
                          scratch.library());
    const auto before = read_file(scratch.library());
    CHECK_FALSE(remembered_answers(scratch.library(), "Client"));
    CHECK(read_file(scratch.library()) == before);
    remember_answers(scratch.library(), "Client", "{}", "estimator");
    CHECK(remembered_answers(scratch.library(), "Client") == "{}");
    CHECK(ask(scratch.library(), "PRAGMA user_version") == "3");
}

TEST_CASE("remembered answers that cannot be read are found by the check") {
    const Scratch scratch;
    make_starter(scratch.library());
    remember_answers(scratch.library(), "Client", "{}", "estimator");
    tamper(scratch.library(), "UPDATE list_answers SET answers = '{'");
    CHECK(check_library(scratch.library()) ==
          std::vector<std::string>{"answers about lists: Client has answers that cannot be read"});
}
