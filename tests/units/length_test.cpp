#include "units/length.hpp"

#include <random>
#include <vector>

#include <doctest/doctest.h>

using spadework::Length;

TEST_CASE("a foot is 0.3048 m exactly") {
    // NIST Special Publication 811, appendix B.6.
    CHECK(Length::from_feet(1000).millimetres() == 304800);
    CHECK(Length::from_feet(1).millimetres() == 305);
    CHECK(Length::from_feet(5280).metres() == doctest::Approx(1609.344));
    CHECK(Length::from_metres(0.3048 * 250).feet() == doctest::Approx(250));
}

TEST_CASE("metres are kept to the nearest millimetre") {
    CHECK(Length::from_metres(0.0004).millimetres() == 0);
    CHECK(Length::from_metres(0.0005).millimetres() == 1);
    CHECK(Length::from_metres(-0.0005).millimetres() == -1);
    CHECK(Length::from_metres(12.3456).millimetres() == 12346);
}

TEST_CASE("lengths add up exactly however they are grouped") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> metres(0, 1000);
    Length forward;
    Length backward;
    std::vector<Length> lengths;
    for (int i = 0; i < 1000; ++i)
        lengths.push_back(Length::from_metres(metres(random)));
    for (const Length length : lengths)
        forward += length;
    for (auto length = lengths.rbegin(); length != lengths.rend(); ++length)
        backward = *length + backward;
    CHECK(forward == backward);
    CHECK(forward - backward == Length());
    CHECK(lengths.front() * 3 == lengths.front() + lengths.front() + lengths.front());
}
