#include "diagnostics/character.hpp"

#include <doctest/doctest.h>

namespace spadework {
namespace {

Character first_of(std::string_view text) {
    return character_at(text, 0);
}

}  // namespace

TEST_CASE("characters of one to four bytes are read by RFC 3629") {
    CHECK(first_of("A").code == 0x41);
    CHECK(first_of("\xC3\xA9").code == 0xE9);
    CHECK(first_of("\xE2\x82\xAC").code == 0x20AC);
    CHECK(first_of("\xF0\x9F\x98\x80").code == 0x1F600);
    CHECK(first_of("\xF4\x8F\xBF\xBF").code == 0x10FFFF);
}

TEST_CASE("overlong forms, surrogates, what lies above U+10FFFF and cut-off characters are single bytes of none") {
    for (const char* text : {"\xC0\x80", "\xC1\xBF", "\xE0\x80\x80", "\xF0\x80\x80\x80", "\xED\xA0\x80",
                             "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\x80", "\xE2\x82", "\xFF"}) {
        CHECK_FALSE(first_of(text).valid);
        CHECK(first_of(text).bytes == 1);
    }
}

TEST_CASE("what a terminal or page would obey is spelled out, everything else stays") {
    const auto shown = [](std::string_view text) { return harmless(text, 0, first_of(text)); };
    CHECK(shown("\x1B") == "\\x1B");
    CHECK(shown("\xC2\x9B") == "\\x9B");
    CHECK(shown("\xE2\x80\xAE") == "\\u202E");
    CHECK(shown("\xEF\xBF\xBE") == "\\uFFFE");
    CHECK(shown("\xFF") == "\\xFF");
    CHECK(shown("\xD7\xA9") == "\xD7\xA9");
}

}  // namespace spadework
