#include "drawing/drawn_text.hpp"

#include <doctest/doctest.h>

using namespace spadework::drawing;

TEST_CASE("ordinary text of any script stays as it is") {
    for (const char* text :
         {"Old mill", "M\xC3\xBChle", "\xE6\xB0\xB4\xE8\xBB\x8A", "\xD7\x9E\xD7\x98\xD7\x97\xD7\xA0\xD7\x94"})
        CHECK(drawn(text) == text);
}

TEST_CASE("what XML forbids or what hides and reorders is written out") {
    CHECK(drawn("a\x01"
                "b") == "a\\x01b");
    CHECK(drawn("a\nb\tc") == "a\\x0Ab\\x09c");
    CHECK(drawn("\xE2\x80\xAE") == "\\u202E");
    CHECK(drawn("\xE2\x81\xA8x\xE2\x81\xA9") == "\\u2068x\\u2069");
    CHECK(drawn("\xFF\xC0\x80") == "\\xFF\\xC0\\x80");
    CHECK(drawn("\xED\xA0\x80") == "\\xED\\xA0\\x80");
    CHECK(drawn("\xEF\xBF\xBF") == "\\uFFFF");
}

TEST_CASE("long text ends in an ellipsis") {
    CHECK(drawn("abcdef", 6) == "abcdef");
    CHECK(drawn("abcdefg", 6) == "abcdef\xE2\x80\xA6");
    CHECK(drawn(std::string(10'000, 'x')).size() == 120 + 3);
    CHECK(drawn(std::string(10'000, '\x02'), 10).size() == 10 * 4 + 3);
}

TEST_CASE("a name in a right-to-left script is isolated inside a sentence") {
    CHECK(drawn_in_sentence("mill") == "mill");
    CHECK(drawn_in_sentence("\xD7\x9E 12") == "\xE2\x81\xA8\xD7\x9E 12\xE2\x81\xA9");
}

TEST_CASE("wider text is wider, and bold text more so") {
    const Lettering normal{12, false};
    CHECK(width_of("", normal) == 0);
    CHECK(width_of("iiii", normal) < width_of("WWWW", normal));
    CHECK(width_of("Mill", normal) < width_of("Mill", {12, true}));
    CHECK(width_of("e\xCC\x81", normal) == doctest::Approx(width_of("e", normal)));
}

TEST_CASE("shortened text fits, and keeps what fits") {
    const Lettering lettering{12, false};
    CHECK(shortened("Barn", 100, lettering) == "Barn");
    const std::string cut = shortened("Reception and offices of the north yard", 100, lettering);
    CHECK(width_of(cut, lettering) <= 100);
    CHECK(cut.rfind("Reception", 0) == 0);
    CHECK(cut.ends_with("\xE2\x80\xA6"));
}

TEST_CASE("wrapped lines fit, lose no word, and stop with an ellipsis where too many") {
    const Lettering lettering{12, false};
    const auto lines = wrapped("the quick brown fox jumps over the lazy dog", 80, lettering);
    CHECK(lines.size() > 2);
    std::string joined;
    for (const std::string& line : lines) {
        CHECK(width_of(line, lettering) <= 80);
        joined += (joined.empty() ? "" : " ") + line;
    }
    CHECK(joined == "the quick brown fox jumps over the lazy dog");
    for (const std::string& line : wrapped(std::string(300, 'm'), 80, lettering))
        CHECK(width_of(line, lettering) <= 80);
    const auto two = wrapped("the quick brown fox jumps over the lazy dog", 80, lettering, 2);
    CHECK(two.size() == 2);
    CHECK(two[1].ends_with("\xE2\x80\xA6"));
    CHECK(width_of(two[1], lettering) <= 80);
    CHECK(wrapped("", 80, lettering).size() == 1);
}
