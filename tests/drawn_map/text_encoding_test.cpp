#include "drawn_map/text_encoding.hpp"

#include <doctest/doctest.h>

using namespace spadework::drawn_map;

namespace {

std::string text_of(std::string_view bytes, bool guess = false) {
    Utf8Text text;
    return read_as_utf8(bytes, guess, text) ? std::string(text.text) : "refused: " + text.problem;
}

using namespace std::string_view_literals;

}  // namespace

TEST_CASE("texts in UTF-8 are taken as they are, without a byte order mark") {
    CHECK(text_of("Mühle €") == "Mühle €");
    CHECK(text_of("\xEF\xBB\xBF{}") == "{}");
    CHECK(text_of("").empty());
}

TEST_CASE("texts in UTF-16 are converted, with a byte order mark or without") {
    CHECK(text_of("\xFF\xFE<\0\xFC\0"sv) == "<ü");
    CHECK(text_of("\xFE\xFF\0<\x20\xAC"sv) == "<€");
    CHECK(text_of("<\0a\0"sv) == "<a");
    CHECK(text_of("\0<\0a"sv) == "<a");
    CHECK(text_of("\xFF\xFE\x3D\xD8\x00\xDE"sv) == "\xF0\x9F\x98\x80");  // U+1F600, of two units.
    CHECK(text_of("\xFF\xFE\x00\xDE"sv) == "\xEF\xBF\xBD");              // Half of one.
}

TEST_CASE("the declaration of an XML text is heeded") {
    CHECK(text_of("<?xml version='1.0' encoding='ISO-8859-1'?><a>\xFC</a>").find("ü") != std::string::npos);
    CHECK(text_of("<?xml version='1.0' encoding='windows-1252'?><a>\x80</a>").find("€") != std::string::npos);
    CHECK(text_of("<?xml version='1.0' encoding='Shift_JIS'?><a/>") ==
          "refused: a text that says it is encoded in 'shift_jis'");
}

TEST_CASE("bytes that are no text are refused, or guessed at where that is asked for") {
    CHECK(text_of("a\xFC") == "refused: byte FC, which is not UTF-8");
    CHECK(text_of("a\xFC", true) == "aü");
    CHECK(text_of("ab\0c"sv) == "refused: a zero byte in a text");
    CHECK(text_of("\xFF\xFE\0\0a\0\0\0"sv) == "refused: a text in UTF-32");
    CHECK(text_of("\xC0\xAF") == "refused: byte C0, which is not UTF-8");
    CHECK(text_of("\xED\xA0\x80") == "refused: byte ED, which is not UTF-8");
}
