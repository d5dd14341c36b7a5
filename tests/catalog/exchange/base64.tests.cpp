// Test vectors: RFC 4648, 10 (from memory).
#include "catalog/exchange/base64.h"

#include <catch2/catch.hpp>

using namespace backplate;

TEST_CASE("base64 of the published vectors") {
    const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                           {"f", "Zg=="},
                                                           {"fo", "Zm8="},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg=="},
                                                           {"fooba", "Zm9vYmE="},
                                                           {"foobar", "Zm9vYmFy"}};
    for (const auto& [bytes, text] : vectors) {
        CHECK(base64(bytes) == text);
        CHECK(from_base64(text) == bytes);
    }
}

TEST_CASE("every byte comes back") {
    std::string bytes;
    for (int i = 0; i < 1000; ++i) {
        bytes += static_cast<char>(i * 37);
        REQUIRE(from_base64(base64(bytes)) == bytes);
    }
}

TEST_CASE("what base64 does not write is refused") {
    for (const char* text : {"Z", "Zg", "Zg=", "Zg==Zg==", "Zh==", "=Zg=", "Zm9=", "Zm 9", "Zm9v\n",
                             "Z===", "====", "Zg==="}) {
        CAPTURE(text);
        CHECK_FALSE(from_base64(text));
    }
}
