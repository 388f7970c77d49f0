#include "site_file/plain_number.hpp"

#include <random>

#include <doctest/doctest.h>

using namespace spadework::site_file;

TEST_CASE("plain decimal numbers are read") {
    CHECK(plain_number("0", Syntax::yaml).value == 0);
    CHECK(plain_number("-3", Syntax::yaml).value == -3);
    CHECK(plain_number("12.50", Syntax::yaml).value == 12.5);
    CHECK(plain_number("0.007", Syntax::yaml).value == 0.007);
    CHECK(plain_number("1000000000", Syntax::yaml).value == 1e9);
    for (const char* text : {"0", "-3", "12.50", "-0.5"}) {
        CHECK(plain_number(text, Syntax::yaml).problem.empty());
    }
}

TEST_CASE("everything that readers of YAML disagree about is refused by name") {
    const auto problem = [](std::string_view text) { return plain_number(text, Syntax::yaml).problem; };
    CHECK(problem("010") == "a number with a leading zero");
    CHECK(problem("-007") == "a number with a leading zero");
    CHECK(problem("00") == "a number with a leading zero");
    CHECK(problem("0x1F") == "a hexadecimal number");
    CHECK(problem("0o17") == "an octal number");
    CHECK(problem("1:30") == "a number with a colon");
    CHECK(problem("1_000") == "a number with a separator");
    CHECK(problem("1,000") == "a number with a separator");
    CHECK(problem(".5") == "a number without a digit before the point");
    CHECK(problem("5.") == "a number without a digit behind the point");
    CHECK(problem("+5") == "a number with a plus sign");
    CHECK(problem("1e3") == "a number with an exponent");
    CHECK(problem(".nan") == "not a number");
    CHECK(problem(".inf") == "not a finite number");
    CHECK(problem("-.inf") == "not a finite number");
    CHECK(problem("ten") == "not a number");
    CHECK(problem("") == "not a number");
    CHECK(problem("-") == "not a number");
    CHECK(problem("1 2") == "not a plain number");
    CHECK(problem(std::string(400, '9')) == "a number too large or too small to hold");
}

TEST_CASE("a JSON number may have an exponent (RFC 8259 section 6)") {
    CHECK(plain_number("1e3", Syntax::json).value == 1000);
    CHECK(plain_number("1.5E-2", Syntax::json).value == 0.015);
    CHECK(plain_number("1e", Syntax::json).problem == "not a plain number");
    CHECK_FALSE(plain_number("1e999", Syntax::json).problem.empty());
}

TEST_CASE("the text of a number reads back as the same number") {
    std::mt19937 random(1);
    std::uniform_real_distribution<double> value(-1e6, 1e6);
    for (int i = 0; i < 1000; ++i) {
        const double number = value(random);
        CHECK(plain_number(decimal_text(number), Syntax::yaml).value == number);
    }
    CHECK(decimal_text(0.001) == "0.001");
    CHECK(decimal_text(1e9) == "1000000000");
}
