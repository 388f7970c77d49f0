#include "units/bit_rate.hpp"

#include <doctest/doctest.h>

using namespace spadework;

TEST_CASE("a line rate is read as people write it") {
    CHECK(bit_rate_from_text("100M") == BitRate::from_megabits(100));
    CHECK(bit_rate_from_text("1G") == BitRate::from_megabits(1000));
    CHECK(bit_rate_from_text("2.5G") == BitRate::from_megabits(2500));
    CHECK(bit_rate_from_text("0.1G") == BitRate::from_megabits(100));
}

TEST_CASE("what is no line rate is refused") {
    for (const char* text : {"", "G", "1", "1g", "1GB", "-1G", "0G", "1 G", "1e3M", "infG", "nanG", "0x1G", "2.5M",
                             "+1G", "10000000G", "1.G", "1.0001G", ".5G"}) {
        CAPTURE(text);
        CHECK_FALSE(bit_rate_from_text(text).has_value());
    }
}

TEST_CASE("the text of a rate reads back as the same rate") {
    for (std::int64_t megabits : {1, 10, 100, 999, 1000, 1001, 1010, 2500, 10000, 25000, 100000}) {
        const auto rate = BitRate::from_megabits(megabits);
        CAPTURE(to_text(rate));
        CHECK(bit_rate_from_text(to_text(rate)) == rate);
    }
    CHECK(to_text(BitRate::from_megabits(2500)) == "2.5G");
    CHECK(to_text(BitRate::from_megabits(100)) == "100M");
}
