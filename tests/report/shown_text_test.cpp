#include "report/shown_text.hpp"

#include <random>
#include <string>

#include <doctest/doctest.h>

namespace spadework::report {

TEST_CASE("control characters are written out and everything else is left alone") {
    CHECK(shown("Cabin row") == "Cabin row");
    CHECK(shown("Caf\u00e9 \u65b0\u5bbf \U0001F3E0") == "Caf\u00e9 \u65b0\u5bbf \U0001F3E0");
    CHECK(shown("\x1b[31mred\x1b[0m") == "\\x1B[31mred\\x1B[0m");
    CHECK(shown("a\nb\tc\rd") == "a\\x0Ab\\x09c\\x0Dd");
    CHECK(shown(std::string_view("a\0b", 3)) == "a\\x00b");
    CHECK(shown("\x7f") == "\\x7F");
    CHECK(shown("\u009b31m") == "\\x9B31m");  // a control sequence in one character
}

TEST_CASE("characters that reorder or hide text are written out") {
    CHECK(shown("\u202Etxt.exe") == "\\u202Etxt.exe");
    CHECK(shown("a\u2066b\u2069") == "a\\u2066b\\u2069");
    CHECK(shown("a\u200Bb") == "a\\u200Bb");
    CHECK(shown("\uFEFFx") == "\\uFEFFx");
    CHECK(shown("a\u2028b") == "a\\u2028b");
}

TEST_CASE("bytes that are not UTF-8 are written out one by one") {
    CHECK(shown("\xff") == "\\xFF");
    CHECK(shown("\xc3(") == "\\xC3(");
    CHECK(shown("\xe2\x82") == "\\xE2\\x82");                    // cut short
    CHECK(shown("\xc0\xaf") == "\\xC0\\xAF");                    // overlong, RFC 3629 section 3
    CHECK(shown("\xed\xa0\x80") == "\\xED\\xA0\\x80");           // a surrogate
    CHECK(shown("\xf4\x90\x80\x80") == "\\xF4\\x90\\x80\\x80");  // beyond U+10FFFF
    CHECK(valid_utf8("a\xff z") == "a\uFFFD z");
    CHECK(valid_utf8("\u00e9\n") == "\u00e9\n");
}

TEST_CASE("widths are those of a terminal") {
    CHECK(display_width("kiosk") == 5);
    CHECK(display_width("Caf\u00e9") == 4);
    CHECK(display_width("Cafe\u0301") == 4);
    CHECK(display_width("\u65b0\u5bbf") == 4);
    CHECK(display_width("\U0001F3E0") == 2);
    CHECK(display_width("") == 0);
}

TEST_CASE("text is wrapped at spaces, and inside words only when they are too long") {
    CHECK(wrapped("", 20) == std::vector<std::string>{""});
    CHECK(wrapped("one two three", 13) == std::vector<std::string>{"one two three"});
    CHECK(wrapped("one two three", 12) == std::vector<std::string>{"one two", "three"});
    CHECK(wrapped("abcdefghijklm", 10) == std::vector<std::string>{"abcdefghij", "klm"});
    CHECK(wrapped("a abcdefghijklm b", 10) == std::vector<std::string>{"a", "abcdefghij", "klm b"});
    CHECK(wrapped("\u65b0\u65b0\u65b0\u65b0\u65b0\u65b0", 10) ==
          std::vector<std::string>{"\u65b0\u65b0\u65b0\u65b0\u65b0", "\u65b0"});
}

TEST_CASE("whatever the bytes, what is shown is printable, and wrapping keeps it and its width") {
    std::mt19937 random(7);  // NOLINT: the same bytes every time
    for (int round = 0; round < 2000; ++round) {
        std::string text;
        for (int i = 0; i < 40; ++i)
            text += static_cast<char>(random() % 256);
        const std::string safe = shown(text);
        CHECK(shown(safe) == safe);
        CHECK(valid_utf8(safe) == safe);
        std::string together;
        for (const std::string& line : wrapped(safe, 12)) {
            CHECK(display_width(line) <= 12);
            together += line;
        }
        std::string spaceless = safe;
        std::erase(spaceless, ' ');
        std::erase(together, ' ');
        CHECK(together == spaceless);
    }
}

}  // namespace spadework::report
