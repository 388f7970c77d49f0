#include "site_file/currency.hpp"

#include <doctest/doctest.h>

using namespace spadework::site_file;

TEST_CASE("currencies have the minor digits of ISO 4217 (values from memory)") {
    CHECK(currency_of("EUR")->minor_digits == 2);
    CHECK(currency_of("USD")->minor_digits == 2);
    CHECK(currency_of("JPY")->minor_digits == 0);
    CHECK(currency_of("KRW")->minor_digits == 0);
    CHECK(currency_of("ISK")->minor_digits == 0);
    CHECK(currency_of("KWD")->minor_digits == 3);
    CHECK(currency_of("TND")->minor_digits == 3);
}

TEST_CASE("what is no current code is unknown") {
    for (const char* code : {"", "eur", "EURO", "XYZ", "DEM", "E R", "AED AFN"}) {
        CAPTURE(code);
        CHECK_FALSE(currency_of(code).has_value());
    }
}

TEST_CASE("codes are three capital letters, each once") {
    const auto codes = currency_codes();
    CHECK(codes.size() > 150);
    for (std::size_t i = 0; i < codes.size(); ++i) {
        CHECK(codes[i].size() == 3);
        CHECK(currency_of(codes[i])->code == codes[i]);
        if (i > 0) CHECK(codes[i - 1] < codes[i]);
    }
}
