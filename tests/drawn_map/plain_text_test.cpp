#include "drawn_map/plain_text.hpp"

#include <doctest/doctest.h>

using namespace spadework::drawn_map;

TEST_CASE("decimal numbers are read whole or not at all") {
    CHECK(decimal_number(" -12.5 ") == -12.5);
    CHECK(decimal_number("+3") == 3);
    CHECK(decimal_number("1e2") == 100);
    CHECK(decimal_number(".5") == 0.5);
    for (const auto* none : {"", "-", "+-1", "1,5", "1.2.3", "1 2", "nan", "inf", "0x10", "1e999", "12m"})
        CHECK_FALSE(decimal_number(none));
}

TEST_CASE("texts become one line without control characters") {
    const OneLine line = one_line(" a\t\r\n b\x01\xC2\x85\x7F ");
    CHECK(line.text == "a b");
    CHECK(line.control_characters == 3);
    CHECK(one_line("\n").text.empty());
    CHECK(one_line("Ähre").text == "Ähre");
}

TEST_CASE("only plain letters are made small") {
    CHECK(small_letters("EPSG ÄÖ") == "epsg ÄÖ");
}
