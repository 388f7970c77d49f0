#include "diagnostics/shown_text.hpp"

#include <doctest/doctest.h>

using namespace spadework;

TEST_CASE("a piece of input is shown shortened, and cut between characters only") {
    CHECK(shown("abc") == "'abc'");
    CHECK(shown("") == "''");
    CHECK(shown(std::string(39, 'a') + "ü") == "'" + std::string(39, 'a') + "…'");
    CHECK(shown(std::string(38, 'a') + "ü") == "'" + std::string(38, 'a') + "ü'");
    CHECK(shown("abcd", 3) == "'abc…'");
}

TEST_CASE("what would break a line or speak to a terminal is not shown as it is") {
    CHECK(shown("a\nb\tc") == "'a b c'");
    CHECK(shown("\x1B[31m\x7F\xC2\x9B") ==
          "'?[31m?"
          "?'");
    CHECK(shown("a\xFF"
                "b\xC2") == "'a?b?'");
}

TEST_CASE("characters are as long as UTF-8 says, and no character where it says none") {
    CHECK(character_length("a", 0) == 1);
    CHECK(character_length("€", 0) == 3);
    CHECK(character_length("€", 1) == 0);
    CHECK(character_length("\xC0\xAF", 0) == 0);      // Longer than need be.
    CHECK(character_length("\xED\xA0\x80", 0) == 0);  // Half of a pair of UTF-16.
    CHECK(character_length("\xF4\x90\x80\x80", 0) == 0);
}
