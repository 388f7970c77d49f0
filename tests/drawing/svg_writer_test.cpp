#include "drawing/svg_writer.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "drawing/support/svg_reading.hpp"

using namespace spadework::drawing;
using spadework::testing::read_svg;

TEST_CASE("numbers have two digits at most and no needless ones") {
    CHECK(number(1) == "1");
    CHECK(number(100) == "100");
    CHECK(number(0.5) == "0.5");
    CHECK(number(1.006) == "1.01");
    CHECK(number(-2.25) == "-2.25");
    CHECK(number(-0.001) == "0");
    CHECK(number(1e6) == "1000000");
    CHECK(number(std::nan("")) == "0");
    CHECK(number(INFINITY) == "0");
}

TEST_CASE("text and attributes come back from a reader as they went in") {
    const std::string nasty = "a<b & c>\"d\" 'e'";
    SvgWriter svg;
    svg.open("g", {{"id", nasty}});
    svg.text("text", {{"x", 1.5}}, nasty);
    svg.titled("rect", {}, nasty);
    svg.close();
    const auto read = read_svg(svg.written());
    CHECK(read.attribute("id") == nasty);
    CHECK(read.children[0].text == nasty);
    CHECK(read.children[1].title() == nasty);
}
